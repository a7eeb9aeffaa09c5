import { instruments } from '@countercheck/contracts';
import { useRoute } from './query.ts';

/** One instrument; not asked for while none is chosen. */
export const useInstrument = (id: string) =>
  useRoute(instruments.show, { params: { id } }, { enabled: id !== '' });
