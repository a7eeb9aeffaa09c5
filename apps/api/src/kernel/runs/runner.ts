import type { FastifyInstance } from 'fastify';
import { randomUUID } from 'node:crypto';
import type { RunKind } from '@countercheck/prisma';
import { system } from '../actor.ts';
import type { Db } from '../database/database.ts';
import { beat, claimRun, settleRun, sweepRuns } from './claim.ts';

const lookEveryMs = 2_000;
const beatEveryMs = 500;

export interface Progress {
  done: number;
  total: number | null;
}

export interface RunWork {
  kind: RunKind;
  /** what a run has done stays when its process stops, and the next process goes on from there */
  resumes?: boolean;
  /** Does the work; gives what is to be stored together with the run's end. Throws when the signal aborts. */
  work(id: string, progress: Progress, signal: AbortSignal): Promise<(db: Db) => Promise<void>>;
  /** Takes away what a run has stored that did not come to its end. */
  clear(db: Db, id: string): Promise<void>;
}

export interface Runner {
  /** Looks for waiting runs now instead of at the next turn. */
  wake(): void;
}

/**
 * Works off the runs of one kind while the service is up: one at a time in this process, none that another
 * process has taken. A run ends as done, cancelled, failed, or interrupted when the process stops; one that resumes
 * waits again instead.
 */
export function startRunner(app: FastifyInstance, { kind, resumes = false, work, clear }: RunWork): Runner {
  const { database } = app;
  const runner = randomUUID();
  const left = resumes ? 'waiting' : 'interrupted';
  const closing = new AbortController();
  let working: Promise<void> | undefined;

  async function runOne(id: string): Promise<void> {
    const progress: Progress = { done: 0, total: null };
    const stop = new AbortController();
    const onClosing = () => stop.abort('interrupted');
    closing.signal.addEventListener('abort', onClosing);
    if (closing.signal.aborted) onClosing();
    let beating: Promise<void> | undefined;
    const timer = setInterval(() => {
      beating ??= beat(database, runner, id, progress)
        .then((heard) => {
          if (heard === 'cancel') stop.abort('cancelled');
          if (heard === 'lost') stop.abort('lost');
        })
        .catch((error: unknown) => app.log.warn({ err: error, run: id }, 'a run could not say that it works'))
        .finally(() => (beating = undefined));
    }, beatEveryMs);
    let state = 'failed' as 'done' | 'cancelled' | 'interrupted' | 'failed' | 'lost';
    let problem: string | null = null;
    try {
      const finish = await work(id, progress, stop.signal);
      stop.signal.throwIfAborted();
      await database.as(system, async (db) => {
        if (await settleRun(db, runner, id, 'done', progress)) await finish(db);
      });
      state = 'done';
    } catch (error) {
      state = stop.signal.aborted ? (stop.signal.reason as typeof state) : 'failed';
      if (state === 'failed') {
        problem = error instanceof Error ? error.message : String(error);
        app.log.error({ err: error, run: id }, 'a run failed');
      }
    }
    clearInterval(timer);
    closing.signal.removeEventListener('abort', onClosing);
    await beating;
    if (state === 'done' || state === 'lost') return;
    const end = state === 'interrupted' ? left : state;
    await database.as(system, async (db) => {
      await clear(db, id);
      await settleRun(db, runner, id, end, progress, problem);
    });
  }

  async function round(): Promise<void> {
    for (const id of await sweepRuns(database, kind, left)) await database.as(system, (db) => clear(db, id));
    while (!closing.signal.aborted) {
      const id = await claimRun(database, kind, runner);
      if (id === null) return;
      await runOne(id);
    }
  }

  const look = () => {
    if (closing.signal.aborted) return;
    working ??= round()
      .catch((error: unknown) => app.log.warn({ err: error, kind }, 'waiting runs could not be read'))
      .finally(() => (working = undefined));
  };
  let timer: NodeJS.Timeout | undefined;
  app.addHook('onReady', async () => {
    timer = setInterval(look, lookEveryMs).unref();
    look();
  });
  // What is at work ends as interrupted before the database is closed.
  app.addHook('onClose', async () => {
    clearInterval(timer);
    closing.abort();
    await working;
  });
  return { wake: look };
}
