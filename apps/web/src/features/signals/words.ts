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

/** What the number of what was looked at counts. */
export const lookedWords: Record<SignalFindingSummary['signal'], string> = {
  agreement: 'Readings looked at',
  belonging: 'Houses looked at',
  'last-digits': 'Displayed numbers looked at',
  repeats: 'Pairs of houses looked at',
  bunching: 'Results looked at',
  spread: 'Results looked at',
  pace: 'Ways between houses looked at',
  instrument: 'Readings looked at',
  photos: 'Photos looked at',
};

/** What is held beside what. */
export const comparedWords: Record<SignalFindingSummary['signal'], string> = {
  agreement:
    'How far each reading is from what the installer reported, beside how far the other raters’ readings are and what the stated accuracy of two instruments allows.',
  belonging:
    'All readings of a house beside what was reported for it, and beside what other houses have; and how often the other raters find such houses by the same installers.',
  'last-digits': 'The last digits of the display, each of which comes up in one number of ten.',
  repeats: 'The displayed numbers of two houses, and how often any two houses share a number.',
  bunching:
    'How many results fail narrowly and pass narrowly, beside what the reported figures and the other raters’ results lead one to expect.',
  spread:
    'How far results differ from house to house, beside how far they do with the other raters; of houses of one plan one counts.',
  pace: 'The time between two readings in different houses, beside what the way takes at 90 km/h (56 mph) and three minutes.',
  instrument: 'Each reading beside the display, range and calibration of the instrument that it names.',
  photos: 'When each photo was taken, beside its visit; and its picture, beside those of other houses.',
};

/** What a quality manager can look at to know more. */
export const nextWords: Record<SignalFindingSummary['signal'], string> = {
  agreement:
    'Measure one or two of these houses again; an honest second reading differs from the installer’s figure.',
  belonging: 'Measure one or two of these houses again, and look in their files for photos of the displays.',
  'last-digits': 'Look whether photos of the displays show the digits that were written.',
  repeats: 'Lay the two files beside each other: photos, times, instruments.',
  bunching: 'Look at the photos of results that pass narrowly, and measure a few of them again.',
  spread: 'Measure one or two of these houses again, and look whether the times leave room for the tests.',
  pace: 'Compare the times of the readings with those of photos and of the booking.',
  instrument: 'Check the instrument’s record first; then ask which instrument was used.',
  photos: 'Open the photos of both houses beside each other.',
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
