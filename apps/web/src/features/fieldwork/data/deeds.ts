import { useMutation, useQueryClient } from '@tanstack/react-query';
import {
  fieldwork,
  type NotReadyBody,
  type ReadingBody,
  type RouteContract,
  type SubmissionBody,
  type VisitSheet,
} from '@countercheck/contracts';
import { call } from '../../../lib/client.ts';
import { keyOf, useAction } from '../../../lib/query.ts';
import { laterSheet } from '../phone/later-sheet.ts';
import type { Phone } from '../phone/phone.ts';
import { usePhone } from '../phone/use-phone.ts';
import { touched } from './touched.ts';

/** Reads again what a deed has changed for other pages of this tab. */
function useRefresh() {
  const client = useQueryClient();
  return (...routes: readonly RouteContract[]) =>
    Promise.all(routes.map((each) => client.invalidateQueries({ queryKey: keyOf(each) })));
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
