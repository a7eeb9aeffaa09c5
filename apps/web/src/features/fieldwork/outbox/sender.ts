import { pauseAfter } from './backoff.ts';
import type { Entry, OutboxStore, Refusal } from './entry.ts';

export type Answer =
  | { kind: 'done' }
  /** not reached, busy or broken: the same again later */
  | { kind: 'again'; afterMs?: number }
  /** the service will not take it as it is */
  | { kind: 'refused'; refusal: Refusal }
  /** nobody is signed in: everything waits for that */
  | { kind: 'sign-in' };

export interface Clock {
  now(): number;
  random(): number;
  /** resolves after the time, or at once when `wake` is called */
  pause(ms: number | null, wake: (wakeUp: () => void) => void): Promise<void>;
}

interface Options<Content> {
  store: OutboxStore<Content>;
  send(entry: Entry<Content>): Promise<Answer>;
  clock: Clock;
  /** entries of somebody else stay until that person is signed in */
  userId: string;
  /** no attempt is counted where there is surely no network */
  reachable(): boolean;
  /** something was sent, refused or put off */
  onNews(): void;
}

const lanesAtOnce = 3;

/**
 * Sends what the store holds. Within a lane one entry goes at a time and the next only when the service has the one
 * before; lanes go side by side. Only one sender works on a store at a time: its caller sees to that.
 */
export function createSender<Content>({ store, send, clock, userId, reachable, onNews }: Options<Content>) {
  const waits = new Map<string, { failures: number; until: number }>();
  let mustSignIn = false;
  let stopped = false;
  let wakeUp: () => void = () => undefined;

  function putOff(lane: string, afterMs: number | undefined): void {
    const failures = (waits.get(lane)?.failures ?? 0) + 1;
    const pause = Math.max(pauseAfter(failures, clock.random), afterMs ?? 0);
    waits.set(lane, { failures, until: clock.now() + pause });
  }

  /** One entry; true when the lane can go on. */
  async function sendOne(id: string, lane: string): Promise<boolean> {
    const entry = await store.claim(id);
    // Taken back, or refused, by another hand meanwhile: the lane looks again.
    if (!entry) return true;
    const answer = await send(entry);
    if (answer.kind === 'done') {
      await store.done(id);
      waits.delete(lane);
    } else if (answer.kind === 'refused') await store.refuse(id, answer.refusal);
    else if (answer.kind === 'sign-in') mustSignIn = true;
    else putOff(lane, answer.afterMs);
    onNews();
    return answer.kind === 'done';
  }

  async function sendLane(lane: string): Promise<void> {
    while (!stopped && !mustSignIn && reachable()) {
      const head = await store.first(userId, lane);
      if (!head || head.refusal || !(await sendOne(head.id, lane))) return;
    }
  }

  /** Goes over all lanes once; the time until the next is due in ms, or null when only news can change anything. */
  async function round(): Promise<number | null> {
    const own = (await store.all()).filter((each) => each.userId === userId);
    const heads = [...new Map(own.toReversed().map((each) => [each.lane, each])).values()];
    const waiting = heads.filter(({ refusal }) => !refusal).map(({ lane }) => lane);
    const due = waiting.filter((lane) => (waits.get(lane)?.until ?? 0) <= clock.now());
    const next = due.values();
    await Promise.all(
      Array.from({ length: Math.min(lanesAtOnce, due.length) }, async () => {
        for (const lane of next) await sendLane(lane);
      }),
    );
    if (mustSignIn || !reachable()) return null;
    const times = waiting.map((lane) => waits.get(lane)?.until).filter((each) => each !== undefined);
    return times.length === 0 ? null : Math.max(0, Math.min(...times) - clock.now());
  }

  return {
    /** Works until `stop`; rejects when the store fails, and can be begun anew then. */
    async run(): Promise<void> {
      while (!stopped) {
        let poked = false;
        wakeUp = () => (poked = true);
        const pause = await round();
        if (stopped || poked) continue;
        await clock.pause(pause, (wake) => (wakeUp = wake));
      }
    },
    /** There is something new, the network is back, or somebody signed in: looks again at once. */
    poke(): void {
      mustSignIn = false;
      for (const [lane, wait] of waits) waits.set(lane, { ...wait, until: 0 });
      wakeUp();
    },
    stop(): void {
      stopped = true;
      wakeUp();
    },
    get signInNeeded(): boolean {
      return mustSignIn;
    },
  };
}
export type Sender = ReturnType<typeof createSender>;
