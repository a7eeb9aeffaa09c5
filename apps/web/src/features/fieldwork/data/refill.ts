import { testDefinition, type UnitSystem } from '@countercheck/measurement';
import { draftFrom, type Draft } from '../entry/draft.ts';
import type { DraftPlace } from '../entry/draft-store.ts';
import type { Content } from '../phone/content.ts';

/** The form that a reading came from, with what was typed, and where that form is. */
export function refilled(
  { visitId, body }: Extract<Content, { kind: 'reading' }>,
  system: UnitSystem,
): { place: DraftPlace; draft: Draft } {
  const { test, subjectId, raw, entered, conditions = {} } = body;
  const instrument = body.instrumentId ? { id: body.instrumentId } : null;
  const draft = draftFrom({ raw, entered, conditions, instrument }, testDefinition(test), system);
  return {
    place: { visitId, test, subjectId, supersedes: body.supersedesId ?? null },
    draft: { ...draft, supersedeReason: body.supersedeReason ?? '' },
  };
}
