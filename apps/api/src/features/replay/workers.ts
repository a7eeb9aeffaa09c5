import { Worker } from 'node:worker_threads';
import { addTally, emptyTally, type Tally } from './tally.ts';
import type { WorkerTask } from './worker.ts';

const threads = 2;
const housesAtOnce = 500;

type Said = { done: number } | { tally: Tally };

/**
 * Goes through the houses in two threads beside the one that answers requests. Each asks for the next list
 * when it is through with one, so that neither waits for the other. Rejects when one of them fails, and when
 * the signal aborts; both are ended then.
 */
export async function lookAtHouses(
  task: WorkerTask,
  houses: readonly string[],
  onDone: (houses: number) => void,
  signal: AbortSignal,
): Promise<Tally> {
  const whole = emptyTally();
  const workers: Worker[] = [];
  let next = 0;

  const run = () =>
    new Promise<void>((resolve, reject) => {
      const worker = new Worker(new URL('./thread.mjs', import.meta.url), { workerData: task, execArgv: [] });
      workers.push(worker);
      let over = false;
      worker.on('error', reject);
      worker.on('exit', () => (over ? resolve() : reject(new Error('A thread of the replay ended early.'))));
      worker.on('message', (said: Said) => {
        if ('tally' in said) {
          addTally(whole, said.tally);
          over = true;
          return;
        }
        onDone(said.done);
        const ids = houses.slice(next, next + housesAtOnce);
        next += ids.length;
        worker.postMessage(ids.length > 0 ? ids : null);
      });
    });

  let giveUp: (() => void) | undefined;
  const aborted = new Promise<never>((_, reject) => {
    giveUp = () => reject(new Error('The replay was stopped.'));
    signal.addEventListener('abort', giveUp);
  });
  try {
    signal.throwIfAborted();
    await Promise.race([Promise.all(Array.from({ length: threads }, run)), aborted]);
    return whole;
  } finally {
    if (giveUp) signal.removeEventListener('abort', giveUp);
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
}
