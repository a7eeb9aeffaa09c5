import type { ControlChart, SignalFindingSummary } from '@countercheck/contracts';

export const signalWords: Record<SignalFindingSummary['signal'], string> = {
  agreement: 'Closer to the reported figures than two instruments can be',
  belonging: 'Houses that read as if they were others',
  'last-digits': 'Preferred last digits',
  repeats: 'Sets of readings that come back',
  bunching: 'Results just inside a limit',
  spread: 'Too little spread between houses',
  pace: 'Too little time for the way',
  instrument: 'Readings that the instrument cannot have given',
  photos: 'Photos from another time or house',
};

/** What may be behind it without anybody having done wrong. */
export const innocentWords: Record<SignalFindingSummary['signal'], string> = {
  agreement: 'The rater may have read together with the installer, or both with the same instrument.',
  belonging:
    'Houses may have been mixed up, or equipment changed after the installer had signed; or no other rater has come upon what this installer reports.',
  'last-digits': 'The display may step by more than its resolution says, or stand still at some digits.',
  repeats: 'Two houses may have been entered under each other’s address.',
  bunching:
    'An installer may set fans and dampers to just what is asked, or put something right while the rater is there.',
  spread: 'All the houses may be of one plan by one installer.',
  pace: 'The device’s clock may be wrong, or readings may have been entered after the visit.',
  instrument: 'The instrument’s resolution or calibration may be registered wrongly.',
  photos: 'A photo may have been attached to the wrong house, or the camera’s clock may be wrong.',
};

export const stateWords: Record<SignalFindingSummary['state'], string> = {
  open: 'Open',
  ordered: 'Followed up',
  dismissed: 'Laid aside',
};

export const itemWords: Record<ControlChart['item'], string> = {
  'supply-static': 'Supply static pressure',
  'return-static': 'Return static pressure',
  'duct-leakage-total': 'Total duct leakage',
  'whole-house-ventilation': 'Whole-house ventilation',
  'kitchen-exhaust': 'Kitchen exhaust',
  'bath-exhaust': 'Bath exhaust',
};

/** A probability as people read it: as a share down to one in a thousand, then as "less than". */
export function chanceWords(p: number): string {
  if (p < 1e-9) return 'less than 1 in a billion';
  if (p < 0.001) return `1 in ${Math.round(1 / p).toLocaleString('en')}`;
  return `${(p * 100).toFixed(1)} %`;
}
