import { instruments, type Instrument } from '@countercheck/contracts';
import { useQuery } from '@tanstack/react-query';
import { call } from './client.ts';
import { keyOf } from './query.ts';

/** One instrument. The service lists them only; a company's instruments fill a page or two at most. */
export function useInstrument(id: string) {
  return useQuery<Instrument | null>({
    enabled: id !== '',
    queryKey: [...keyOf(instruments.list), 'one', id],
    queryFn: async ({ signal }) => {
      for (let page = 1; ; page += 1) {
        const { items, total, pageSize } = await call(
          instruments.list,
          { query: { page, pageSize: 100 } },
          { signal },
        );
        const found = items.find((each) => each.id === id);
        if (found || page * pageSize >= total) return found ?? null;
      }
    },
  });
}
