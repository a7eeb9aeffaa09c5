import type { NewEntry, Entry, OutboxStore } from '../entry.ts';
import { createSender, type Answer } from '../sender.ts';

/** What an entry of the tests says: the service refuses some until a person has decided. */
export interface Content {
  text: string;
  refusedUntilDecided: boolean;
}

/** Numbers from a seed (mulberry32), so that a schedule that fails can be run again. */
function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** The service: what a key has done is done once, and answered again. */
class Service {
  readonly effects: { id: string; lane: string; text: string }[] = [];
  private readonly keys = new Map<string, string>();
  duplicates = 0;

  deliver({ id, key, lane, content }: Entry<Content>): Answer {
    const body = JSON.stringify([id, content]);
    const known = this.keys.get(key);
    if (known !== undefined) {
      this.duplicates += 1;
      if (known !== body) throw new Error('the same key came with another body');
      return { kind: 'done' };
    }
    if (content.refusedUntilDecided)
      return {
        kind: 'refused',
        refusal: { code: 'conflict', title: 'x', detail: null, remedy: 'x', fields: [] },
      };
    this.keys.set(key, body);
    this.effects.push({ id, lane, text: content.text });
    return { kind: 'done' };
  }
}

/**
 * A phone with tabs over a disk, a network and a service, in steps: whatever goes on asks for a step, and a seeded
 * draw says which happens next. A tab that crashes takes no more steps; what it has sent is still under way.
 */
export class World {
  readonly service = new Service();
  readonly disk = new Map<string, Entry<Content>>();
  /** what was withdrawn on the disk, whether or not its tab lived to be told */
  readonly takenBack = new Set<string>();
  readonly random: () => number;
  faults = true;
  now = 0;
  private seq = 0;
  private steps: { tab: number | null; run: () => void }[] = [];
  private readonly dead = new Set<number>();
  private lockedBy: number | null = null;
  private waitingForLock: { tab: number; enter: () => void }[] = [];
  private tabs = 0;
  private senders: { tab: number; poke(): void; stop(): void }[] = [];

  constructor(seed: number) {
    this.random = seeded(seed);
  }

  chance = (share: number) => this.faults && this.random() < share;
  pick = <T>(list: readonly T[]): T => list[Math.floor(this.random() * list.length)]!;

  private step<T>(tab: number | null, work: () => T): Promise<T> {
    return new Promise((resolve, reject) => {
      this.steps.push({
        tab,
        run: () => {
          try {
            resolve(work());
          } catch (error) {
            reject(error as Error);
          }
        },
      });
    });
  }

  /** The effect in one step and its answer in another: a crash can come in between. */
  private async twoSteps<T>(tab: number, work: () => T): Promise<T> {
    const result = await this.step(tab, work);
    await this.step(tab, () => undefined);
    return result;
  }

  store(tab: number): OutboxStore<Content> {
    const { disk } = this;
    return {
      add: (entry) => this.twoSteps(tab, () => void this.commit(entry)),
      all: () => this.step(tab, () => [...disk.values()].sort((a, b) => a.seq - b.seq)),
      first: (userId, lane) =>
        this.step(
          tab,
          () =>
            [...disk.values()]
              .sort((a, b) => a.seq - b.seq)
              .find((each) => each.userId === userId && each.lane === lane) ?? null,
        ),
      claim: (id) =>
        this.twoSteps(tab, () => {
          const entry = disk.get(id);
          if (!entry || entry.refusal) return null;
          const claimed = { ...entry, attempts: entry.attempts + 1 };
          disk.set(id, claimed);
          return claimed;
        }),
      done: (id) => this.twoSteps(tab, () => void disk.delete(id)),
      refuse: (id, refusal) =>
        this.twoSteps(tab, () => {
          const entry = disk.get(id);
          if (entry) disk.set(id, { ...entry, refusal });
        }),
      decide: (id, content, key) =>
        this.twoSteps(tab, () => {
          const entry = disk.get(id);
          if (!entry?.refusal) return false;
          disk.set(id, { ...entry, content, key, refusal: null });
          return true;
        }),
      withdraw: (id) =>
        this.twoSteps(tab, () => {
          const entry = disk.get(id);
          if (!entry || (entry.attempts > 0 && !entry.refusal)) return false;
          this.takenBack.add(id);
          return disk.delete(id);
        }),
    };
  }

  private commit(entry: NewEntry<Content>): void {
    this.disk.set(entry.id, { ...entry, seq: ++this.seq, attempts: 0, refusal: null });
  }

  /** A request as networks treat them: lost on the way there or back, late, doubled, or met by a fault. */
  private async send(tab: number, entry: Entry<Content>): Promise<Answer> {
    const request = structuredClone(entry);
    const broken: Answer = { kind: 'again' };
    if (this.chance(0.15)) return this.step(tab, () => broken);
    // Gives up on it, and it arrives all the same, at any time after.
    if (this.chance(0.15)) {
      void this.step(null, () => void this.service.deliver(request));
      return this.step(tab, () => broken);
    }
    if (this.chance(0.1)) return this.step(tab, () => broken);
    if (this.chance(0.1)) void this.step(null, () => void this.service.deliver(request));
    const answer = await this.step(null, () => this.service.deliver(request));
    const lost = this.chance(0.15);
    return this.step(tab, () => (lost ? broken : answer));
  }

  openTab(userId: string): number {
    const tab = ++this.tabs;
    const sender = createSender<Content>({
      store: this.store(tab),
      send: (entry) => this.send(tab, entry),
      userId,
      reachable: () => true,
      onNews: () => undefined,
      clock: {
        now: () => this.now,
        random: this.random,
        pause: async (ms, wake) => {
          let woken = false;
          wake(() => (woken = true));
          // Without a time it waits for news, which the tests bring in the end.
          while (!woken) {
            await this.step(tab, () => (this.now += ms ?? 1_000));
            if (ms !== null) return;
          }
        },
      },
    });
    this.senders.push({ tab, poke: () => sender.poke(), stop: () => sender.stop() });
    void this.enterLock(tab).then(() => sender.run());
    return tab;
  }

  private enterLock(tab: number): Promise<void> {
    return new Promise((resolve) => {
      const enter = () => {
        this.lockedBy = tab;
        resolve();
      };
      if (this.lockedBy === null) enter();
      else this.waitingForLock.push({ tab, enter });
    });
  }

  crash(tab: number): void {
    this.dead.add(tab);
    this.steps = this.steps.filter((step) => step.tab !== tab);
    this.waitingForLock = this.waitingForLock.filter((each) => each.tab !== tab);
    this.senders = this.senders.filter((each) => each.tab !== tab);
    if (this.lockedBy === tab) {
      this.lockedBy = null;
      this.waitingForLock.shift()?.enter();
    }
  }

  isDead = (tab: number) => this.dead.has(tab);
  pokeAll(): void {
    for (const { poke } of this.senders) poke();
  }
  closeAll(): void {
    for (const { stop } of this.senders) stop();
    this.steps = [];
  }

  /** One step of anything, in an order drawn by chance; promises settle in between. */
  async advance(): Promise<void> {
    this.now += 10;
    const index = Math.floor(this.random() * this.steps.length);
    const [step] = this.steps.splice(index, 1);
    if (step && (step.tab === null || !this.dead.has(step.tab))) step.run();
    for (let i = 0; i < 12; i += 1) await Promise.resolve();
  }
}
