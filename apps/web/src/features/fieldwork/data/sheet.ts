import { useQuery, useQueryClient, type UseQueryResult } from '@tanstack/react-query';
import { fieldwork, visits, type Visit, type VisitSheet } from '@countercheck/contracts';
import { useEffect, useMemo } from 'react';
import { call } from '../../../lib/client.ts';
import { clockOf } from '../../../lib/dates.ts';
import { useLater } from '../../../lib/later.ts';
import { keyOf } from '../../../lib/query.ts';
import { useMe } from '../../../lib/session.ts';
import { laterSheet } from '../phone/later-sheet.ts';
import { visitWith } from '../phone/local-visit.ts';
import { usePhone } from '../phone/use-phone.ts';
import { touched } from './touched.ts';

/** What is known here stands in for what cannot be asked. */
function instead<Answer>(query: UseQueryResult<Answer>, known: Answer | undefined): UseQueryResult<Answer> {
  const data = known ?? query.data;
  if (data === undefined) return query;
  return { ...query, data, isError: false, error: null } as UseQueryResult<Answer>;
}

/** Not answered yet, or not to be answered, whatever the service has said. */
const unanswered = <Answer>(query: UseQueryResult<Answer>, error: unknown): UseQueryResult<Answer> =>
  ({ ...query, data: undefined, isError: error !== null, error }) as UseQueryResult<Answer>;

/**
 * A visit's sheet: for its rater the one on his phone with what the outbox holds, for others the service's. This folder
 * is the only place where the rater's pages reach the service.
 */
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
  // A phone that was never prepared does not know that there is none.
  const knows = query.isError && state.preparedAt !== null;
  if (!onPhone || (onPhone.length === 0 && !knows)) return query;
  if (!query.data) return instead(query, { items: onPhone });
  // The service says which visits there are; the phone, what was done on them.
  const items = query.data.items.map((each) => onPhone.find(({ id }) => id === each.id) ?? each);
  return instead(query, { items });
}
