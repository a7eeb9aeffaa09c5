import type { Batch } from '@countercheck/contracts';

export const phaseWords: Record<Batch['phase'], string> = {
  qualifying: 'Earning entry',
  sampling: 'Sampling',
  returning: 'Earning return after a failed set',
};
export const setWords: Record<Batch['setList'][number]['state'], string> = {
  testing: 'Testing',
  widened: 'Widened after a failure',
  passed: 'Passed',
  failed: 'Failed',
};
export const toneOf = (state: string): 'good' | 'bad' | 'brass' =>
  state === 'passed' || state === 'sampling' ? 'good' : state === 'failed' ? 'bad' : 'brass';

type SetHouse = Batch['setList'][number]['houses'][number];

/** What a house of a set is, in one word that the drawing and the table share. */
export function houseWords({ chosen, result }: Pick<SetHouse, 'chosen' | 'result'>, set: string): string {
  if (result === 'passed') return 'Tested, passed';
  if (result === 'failed') return 'Tested, failed';
  if (result === 'corrected') return 'Failed, corrected, passed';
  if (chosen) return 'To be tested';
  return set === 'passed' ? 'Not tested, spoken for' : 'Not chosen';
}
