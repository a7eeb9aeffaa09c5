import { useQueries, useQueryClient } from '@tanstack/react-query';
import { failedItems, fieldwork, houses, review, visits } from '@countercheck/contracts';
import { call, upload } from '../../../lib/client.ts';
import { keyOf, useAction, useRoute } from '../../../lib/query.ts';

/**
 * The only place where the rater's pages reach the service, so that a store on the phone that works without a
 * connection can take its place.
 */
const touched = [
  visits.list,
  visits.show,
  houses.list,
  houses.show,
  failedItems.list,
  review.file,
  review.queue,
];

export const useSheet = (visitId: string, enabled = true) =>
  useRoute(fieldwork.sheet, { params: { id: visitId } }, { enabled });

/** Records a reading; the answer is the whole sheet as it is now, with what the reading uncovered. */
export function useRecordReading(visitId: string) {
  const client = useQueryClient();
  return useAction(fieldwork.read, {
    invalidates: touched,
    onDone: (answer) => {
      if ('visit' in answer) client.setQueryData(keyOf(fieldwork.sheet, { params: { id: visitId } }), answer);
    },
  });
}

export const useSubmitVisit = () =>
  useAction(fieldwork.submit, { invalidates: [fieldwork.sheet, ...touched] });
export const useNotReady = () =>
  useAction(fieldwork.notReady, { invalidates: [fieldwork.sheet, ...touched] });
export const useReopenVisit = () =>
  useAction(fieldwork.reopen, { invalidates: [fieldwork.sheet, ...touched] });

export interface NewPhoto {
  id: string;
  item?: string;
  subjectId?: string;
  caption?: string;
  takenAt: string;
}

export function useSendPhoto(visitId: string) {
  const client = useQueryClient();
  return async (photo: NewPhoto, file: Blob) => {
    await upload(fieldwork.addPhoto, { params: { id: visitId }, body: photo }, file);
    await client.invalidateQueries({ queryKey: keyOf(fieldwork.sheet) });
  };
}

export const useVisitsOf = (day: string, raterId: string) =>
  useRoute(visits.list, { query: { from: day, to: day, raterId, pageSize: 100 } });
export const useAnswerFinding = () =>
  useAction(review.answer, { invalidates: [review.reviews, review.file] });
export const useSendBack = () => useAction(review.sendBack, { invalidates: touched });

export const useReviews = (id: string, enabled: boolean) =>
  useRoute(review.reviews, { params: { id } }, { enabled });

/** Returned files that a rater worked on, each with the last visit there: the service lists own visits only. */
export function useReturnedFiles() {
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
  return { files, error: returned.error ?? visited.find(({ error }) => error)?.error ?? null };
}
