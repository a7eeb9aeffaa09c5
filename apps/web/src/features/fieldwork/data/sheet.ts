import {
  useQueries,
  useQuery,
  useQueryClient,
  useMutation,
  type UseQueryResult,
} from '@tanstack/react-query';
import {
  failedItems,
  fieldwork,
  houses,
  review,
  visits,
  type NotReadyBody,
  type ReadingBody,
  type RouteContract,
  type SubmissionBody,
  type Visit,
  type VisitSheet,
} from '@countercheck/contracts';
import { useEffect, useMemo } from 'react';
import { call } from '../../../lib/client.ts';
import { clockOf } from '../../../lib/dates.ts';
import { useLater } from '../../../lib/later.ts';
import { keyOf, useAction, useRoute } from '../../../lib/query.ts';
import { useMe } from '../../../lib/session.ts';
import { laterSheet } from '../phone/later-sheet.ts';
import { visitWith } from '../phone/local-visit.ts';
import type { Phone } from '../phone/phone.ts';
import { usePhone } from '../phone/use-phone.ts';

/**
 * The only place where the rater's pages reach the service. For the rater himself it is his phone: what he enters
 * goes into the outbox first, and what he sees is the sheet on the phone with what the outbox holds.
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

/** Reads again what a deed has changed for other pages of this tab. */
function useRefresh() {
  const client = useQueryClient();
  return (...routes: readonly RouteContract[]) =>
    Promise.all(routes.map((each) => client.invalidateQueries({ queryKey: keyOf(each) })));
}

/** What is known here stands in for what cannot be asked. */
function instead<Answer>(query: UseQueryResult<Answer>, known: Answer | undefined): UseQueryResult<Answer> {
  const data = known ?? query.data;
  if (data === undefined) return query;
  return { ...query, data, isError: false, error: null } as UseQueryResult<Answer>;
}

/** Not answered yet, or not to be answered, whatever the service has said. */
const unanswered = <Answer>(query: UseQueryResult<Answer>, error: unknown): UseQueryResult<Answer> =>
  ({ ...query, data: undefined, isError: error !== null, error }) as UseQueryResult<Answer>;

export function useSheet(visitId: string, enabled = true): UseQueryResult<VisitSheet> {
  const me = useMe();
  const { phone, state } = usePhone();
  const client = useQueryClient();
  const args = { params: { id: visitId } };
  const query = useQuery<VisitSheet>({
    queryKey: keyOf(fieldwork.sheet, args),
    queryFn: async ({ signal }) => {
      const sheet = await call(fieldwork.sheet, args, { signal });
      await phone?.keepSheet(sheet);
      return sheet;
    },
    networkMode: 'always',
    enabled: enabled && (phone === null || state.ready),
  });
  useEffect(
    () =>
      phone?.onSent((sent) => {
        if (sent !== visitId) return;
        for (const route of touched) void client.invalidateQueries({ queryKey: keyOf(route) });
        void client.invalidateQueries({ queryKey: keyOf(fieldwork.sheet, { params: { id: visitId } }) });
      }),
    [phone, visitId, client],
  );
  const { sheetsVersion, entries } = state;
  // The phone's own sheet is never older than the last one asked for, which it has kept.
  const kept = useMemo(
    () => (sheetsVersion >= 0 ? phone?.sheet(visitId) : null),
    [phone, visitId, sheetsVersion],
  );
  const base = kept ?? query.data;
  const waiting = phone !== null && entries.some(({ content }) => content.visitId === visitId);
  const { part: local, error } = useLater(laterSheet, phone !== null);
  const known = useMemo(
    () => base && (waiting ? local?.withEntries(base, entries, me, me.company.timezone) : base),
    [base, waiting, local, entries, me],
  );
  // Without what waits on this phone the sheet would show less than was entered.
  if (base && waiting && !local) return unanswered(query, error);
  return instead(query, known);
}

/** What the rater has before his eyes, so that the service can tell what has changed since. */
const seenOf = ({ visit, figuresRevision }: VisitSheet) => ({
  startsAt: visit.startsAt,
  endsAt: visit.endsAt,
  figuresRevision,
});

/** A deed on a visit: into the outbox of the phone, or to the service where there is no phone to keep it. */
function useDeed<Body>(
  keep: (phone: Phone, body: Body) => Promise<unknown>,
  ask: (body: Body) => Promise<unknown>,
) {
  const { phone } = usePhone();
  const refresh = useRefresh();
  return useMutation<unknown, Error, Body>({
    mutationFn: (body) => (phone ? keep(phone, body) : ask(body)),
    networkMode: 'always',
    onSuccess: () => (phone ? undefined : refresh(fieldwork.sheet, ...touched)),
  });
}

/** Records a reading; the sheet has it at once, and the service as soon as there is a network. */
export function useRecordReading(sheet: VisitSheet, place: string) {
  const { id: visitId, house } = sheet.visit;
  return useDeed<ReadingBody>(
    async (phone, body) => {
      // Kept whether or not the verdict can be worked out here.
      await laterSheet.load().catch(() => undefined);
      const content = { kind: 'reading' as const, visitId, place, figures: sheet.file.reported };
      return phone.add({ ...content, body: { ...body, seen: seenOf(sheet) } }, house.id, body.id);
    },
    (body) => call(fieldwork.read, { params: { id: visitId }, body }),
  );
}

export function useSubmitVisit(sheet: VisitSheet) {
  const { id: visitId, house } = sheet.visit;
  return useDeed<SubmissionBody>(
    (phone, body) => {
      const own = { kind: 'submission' as const, visitId, place: house.address };
      const content = { ...own, figures: sheet.file.reported };
      return phone.add({ ...content, body: { ...body, seen: seenOf(sheet) } }, house.id);
    },
    (body) => call(fieldwork.submit, { params: { id: visitId }, body }),
  );
}

export function useNotReady(sheet: VisitSheet) {
  const { id: visitId, house } = sheet.visit;
  return useDeed<NotReadyBody>(
    (phone, body) => {
      const content = { kind: 'not-ready' as const, visitId, place: house.address };
      return phone.add({ ...content, body: { ...body, seen: seenOf(sheet) } }, house.id);
    },
    (body) => call(fieldwork.notReady, { params: { id: visitId }, body }),
  );
}

export const useReopenVisit = () =>
  useAction(fieldwork.reopen, { invalidates: [fieldwork.sheet, ...touched] });

/** The rater's visits of a day; those on the phone where the service cannot be asked. */
export function useVisitsOf(day: string, raterId: string): UseQueryResult<{ items: Visit[] }> {
  const zone = useMe().company.timezone;
  const { phone, state } = usePhone();
  const args = { query: { from: day, to: day, raterId, pageSize: 100 } };
  const query = useQuery<{ items: Visit[] }>({
    queryKey: keyOf(visits.list, args),
    queryFn: ({ signal }) => call(visits.list, args, { signal }),
    networkMode: 'always',
  });
  const { sheetsVersion, entries, ready } = state;
  const onPhone = useMemo(() => {
    if (!phone || !ready || sheetsVersion < 0) return undefined;
    const all = phone.allSheets().map(({ visit }) => visitWith(visit, entries));
    return all.filter(({ startsAt }) => clockOf(startsAt, zone).date === day);
  }, [phone, ready, sheetsVersion, entries, zone, day]);
  if (!onPhone || (onPhone.length === 0 && !query.isError)) return query;
  if (!query.data) return instead(query, { items: onPhone });
  // The service says which visits there are; the phone, what was done on them.
  const items = query.data.items.map((each) => onPhone.find(({ id }) => id === each.id) ?? each);
  return instead(query, { items });
}

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
