import { Worker } from 'node:worker_threads';
import type { PlanSaid, PlanTask } from './worker.ts';

type Found = Extract<PlanSaid, { plan: unknown }>;

/** Plans in a thread beside the one that answers requests. Rejects when it fails and when the signal aborts. */
export function planInThread(
  task: PlanTask,
  onPart: (part: number) => void,
  signal: AbortSignal,
): Promise<Found> {
  signal.throwIfAborted();
  const worker = new Worker(new URL('./thread.mjs', import.meta.url), { workerData: task, execArgv: [] });
  return new Promise<Found>((resolve, reject) => {
    signal.addEventListener('abort', () => reject(new Error('The plan was stopped.')), { once: true });
    worker.on('error', reject);
    worker.on('exit', () => reject(new Error('The thread of the plan ended early.')));
    worker.on('message', (said: PlanSaid) => ('plan' in said ? resolve(said) : onPart(said.part)));
  }).finally(() => worker.terminate());
}
