import type { SourceMark } from '../../source-mark.ts';
import type { Severity } from './tables.ts';

const remembered = (clause: string): SourceMark => ({
  mark: 'from memory',
  source: `ISO 2859-1:1999, ${clause}`,
});

/** The switching rules as data; change a number here and the machine follows. */
export const switchingRules = {
  tighten: { notAccepted: 2, among: 5, ...remembered('9.3.1') },
  relax: { accepted: 5, ...remembered('9.3.2') },
  stop: { notAccepted: 5, ...remembered('9.4') },
  reduce: { score: 30, ...remembered('9.3.3') },
  /** points for an accepted lot: fewer where one cannot be accepted a step stricter */
  scoring: { accepted: 2, acceptedOneStepTighter: 3, ...remembered('9.3.3.2') },
} as const;

/** How the next lot is inspected, and what led there. */
export interface SwitchingState {
  severity: Severity | 'stopped';
  /** outcomes of the newest lots at normal inspection since the last switch, newest last */
  recent: boolean[];
  score: number;
  /** lots accepted in a row, and not accepted in all, while tightened */
  acceptedInRow: number;
  notAccepted: number;
  /** in words, why the severity is what it is */
  why: string;
}

/** One lot's outcome at first inspection. */
export interface LotOutcome {
  accepted: boolean;
  /** acceptance number of its plan */
  acceptanceNumber: number;
  /** it would have been accepted at the next stricter limit; only asked where the acceptance number is 2 or more */
  acceptedOneStepTighter?: boolean;
  /** at reduced inspection: accepted, with a number between acceptance and rejection */
  between?: boolean;
}

/** Where inspection begins. */
export const switchingStart: SwitchingState = {
  ...{ severity: 'normal', recent: [], score: 0, acceptedInRow: 0, notAccepted: 0 },
  why: 'Inspection begins at normal.',
};

function afterNormal(state: SwitchingState, lot: LotOutcome): SwitchingState {
  const { tighten, reduce, scoring } = switchingRules;
  const recent = [...state.recent, lot.accepted].slice(-tighten.among);
  if (recent.filter((accepted) => !accepted).length >= tighten.notAccepted)
    return {
      ...switchingStart,
      severity: 'tightened',
      why: `${tighten.notAccepted} of ${tighten.among} or fewer lots in a row were not accepted.`,
    };
  const stricter = lot.acceptanceNumber < 2 || lot.acceptedOneStepTighter === true;
  const points = lot.acceptanceNumber >= 2 ? scoring.acceptedOneStepTighter : scoring.accepted;
  const score = lot.accepted && stricter ? state.score + points : 0;
  if (score >= reduce.score)
    return { ...switchingStart, severity: 'reduced', why: `The switching score reached ${score}.` };
  return { ...state, recent, score, why: `Normal; the switching score is ${score}.` };
}

function afterTightened(state: SwitchingState, lot: LotOutcome): SwitchingState {
  const { relax, stop } = switchingRules;
  const acceptedInRow = lot.accepted ? state.acceptedInRow + 1 : 0;
  const notAccepted = state.notAccepted + (lot.accepted ? 0 : 1);
  if (notAccepted >= stop.notAccepted)
    return {
      ...state,
      ...{ severity: 'stopped', acceptedInRow, notAccepted },
      why: `${stop.notAccepted} lots were not accepted at tightened inspection: nothing goes on until the cause is put right.`,
    };
  if (acceptedInRow >= relax.accepted)
    return {
      ...switchingStart,
      why: `${relax.accepted} lots in a row were accepted at tightened inspection.`,
    };
  return { ...state, acceptedInRow, notAccepted, why: `Tightened; ${acceptedInRow} in a row accepted.` };
}

/**
 * How the next lot is inspected after this one (ISO 2859-1 switching as remembered; each rule with its mark in
 * `switchingRules`). Stopped stays stopped until somebody begins anew with `switchingStart` at tightened.
 * Never throws.
 */
export function nextSeverity(state: SwitchingState, lot: LotOutcome): SwitchingState {
  switch (state.severity) {
    case 'normal':
      return afterNormal(state, lot);
    case 'tightened':
      return afterTightened(state, lot);
    case 'reduced':
      if (lot.accepted && !lot.between) return { ...state, why: 'Reduced; the lot was accepted.' };
      return {
        ...switchingStart,
        why: lot.accepted
          ? 'Accepted, with a number between acceptance and rejection: back to normal.'
          : 'A lot was not accepted at reduced inspection: back to normal.',
      };
    case 'stopped':
      return state;
  }
}
