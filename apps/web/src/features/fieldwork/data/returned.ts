import { useQueries } from '@tanstack/react-query';
import { houses, review, visits } from '@countercheck/contracts';
import { call } from '../../../lib/client.ts';
import { keyOf, useAction, useRoute } from '../../../lib/query.ts';
import { usePhone } from '../phone/use-phone.ts';
import { touched } from './touched.ts';

export const useAnswerFinding = () =>
  useAction(review.answer, { invalidates: [review.reviews, review.file] });
export const useSendBack = () => useAction(review.sendBack, { invalidates: touched });

export const useReviews = (id: string, enabled: boolean) =>
  useRoute(review.reviews, { params: { id } }, { enabled });

/** Returned files that a rater worked on, each with the last visit there: the service lists own visits only. */
export function useReturnedFiles() {
  const { state } = usePhone();
  const returned = useRoute(houses.list, { query: { stage: 'returned', pageSize: 100 } });
  const found = returned.data?.items ?? [];
  const visited = useQueries({
    queries: found.map(({ id }) => {
      const args = { query: { houseId: id, pageSize: 100 } };
      return { queryKey: keyOf(visits.list, args), queryFn: () => call(visits.list, args) };
    }),
  });
  const files = found.flatMap((house, i) => {
    const [last] = (visited[i]?.data?.items ?? []).toSorted((a, b) => b.startsAt.localeCompare(a.startsAt));
    return last ? [{ house, last }] : [];
  });
  const error = returned.error ?? visited.find(({ error: each }) => each)?.error ?? null;
  // A desk's work that can wait for a network; the day's own work goes on.
  return { files, error: state.preparedAt && error instanceof TypeError ? null : error };
}
