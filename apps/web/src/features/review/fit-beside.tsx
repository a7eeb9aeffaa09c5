import { instruments, type Reading } from '@countercheck/contracts';
import { EnvelopeFit } from '../../components/envelope-fit/index.ts';
import { useRoute } from '../../lib/query.ts';
import { factsOn } from '../../lib/instrument-facts.ts';

/** The drawing of an envelope test in the file; fan pressures are read with the instrument as it was on that day. */
export function FitBeside({ reading }: { reading: Reading }) {
  const needed = reading.raw.rows.some(({ values }) => values['fanPressure'] !== undefined);
  const query = useRoute(instruments.list, { query: { pageSize: 100 } }, { enabled: needed });
  const found = query.data?.items.find(({ id }) => id === reading.instrument?.id);
  const day = reading.instrument?.calibratedOn ?? '';
  return (
    <EnvelopeFit test={reading.test} raw={reading.raw} instrument={found ? factsOn(found, day) : null} />
  );
}
