import type { BackgroundRun } from '@countercheck/contracts';

export const runStateWords: Record<BackgroundRun['state'], string> = {
  waiting: 'Waiting for its turn',
  running: 'At work',
  done: 'Done',
  cancelled: 'Cancelled',
  interrupted: 'Interrupted',
  failed: 'Failed',
};

export const runStateTones = {
  waiting: 'plain',
  running: 'brass',
  done: 'good',
  cancelled: 'plain',
  interrupted: 'bad',
  failed: 'bad',
} as const satisfies Record<BackgroundRun['state'], string>;

export const isAtWork = ({ state }: Pick<BackgroundRun, 'state'>) =>
  state === 'waiting' || state === 'running';

const everyMs = 1000;

/** Asks again for a run, or a list of runs, for as long as one of them is at work. */
export function whileAtWork({ state }: { state: { data: unknown } }): number | false {
  const data = state.data as BackgroundRun | { items: BackgroundRun[] } | undefined;
  if (!data) return false;
  const runs = 'items' in data ? data.items : [data];
  return runs.some(isAtWork) ? everyMs : false;
}
