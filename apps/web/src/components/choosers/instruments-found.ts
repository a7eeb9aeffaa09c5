import { instruments } from '@countercheck/contracts';
import { useRoute } from '../../lib/query.ts';
import { found } from '../fields/index.ts';

/** The company's instruments by label or serial number, for a `SearchChoice`. */
export const useInstrumentsFound = (search: string) =>
  found(
    useRoute(instruments.list, { query: { search, pageSize: 20 } }, { keepPrevious: true }),
    ({ id, label, serial }) => ({ value: id, label: `${label}, ${serial}` }),
  );
