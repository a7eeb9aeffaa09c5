import { expect, it } from 'vitest';
import { World } from './test/world.ts';
import { pauseAfter } from './backoff.ts';

const schedules = Number(process.env['OUTBOX_SCHEDULES'] ?? 3_000);
const lanes = ['house-1', 'house-2', 'house-3'];

interface Outcome {
  crashes: number;
  duplicates: number;
  entered: number;
  withdrawn: number;
  decided: number;
}

/** A day on a phone: entries, second thoughts, decisions and crashes among steps drawn by chance; then quiet. */
async function day(seed: number): Promise<Outcome> {
  const world = new World(seed);
  const tabs = [world.openTab('rater'), world.openTab('rater')];
  const outcome = { crashes: 0, duplicates: 0, entered: 0, withdrawn: 0, decided: 0 };
  const deeds = 6 + Math.floor(world.random() * 10);
  /** every entry that is on the disk at any time: what was not yet there when a tab crashed was never taken */
  const order = new Map<string, { lane: string; seq: number; text: string }>();
  const look = () => {
    for (const { id, lane, seq, content } of world.disk.values())
      order.set(id, { lane, seq, text: content.text });
  };

  const enter = (tab: number, n: number) => {
    const id = `${seed}-${n}`;
    const content = { text: `reading ${n}`, refusedUntilDecided: world.random() < 0.15 };
    void world
      .store(tab)
      .add({ id, key: id, userId: 'rater', lane: world.pick(lanes), madeAt: '', content })
      .then(() => world.pokeAll());
  };
  const takeBack = (tab: number) => {
    const [entry] = [...world.disk.values()].filter(() => world.random() < 0.5);
    if (!entry) return;
    void world.store(tab).withdraw(entry.id);
  };
  const decide = (tab: number) => {
    for (const { id, key, content, refusal } of world.disk.values()) {
      if (!refusal) continue;
      outcome.decided += 1;
      const decided = { ...content, refusedUntilDecided: false };
      void world
        .store(tab)
        .decide(id, decided, `${key}'`)
        .then(() => world.pokeAll());
    }
  };

  const settleOne = async () => {
    await world.advance();
    look();
  };
  for (let n = 0; n < deeds; n += 1) {
    const tab = world.pick(tabs);
    enter(tab, n);
    const steps = Math.floor(world.random() * 25);
    for (let i = 0; i < steps; i += 1) await settleOne();
    if (world.random() < 0.15) takeBack(world.pick(tabs));
    if (world.random() < 0.3) decide(world.pick(tabs));
    if (world.random() < 0.25) {
      const crashed = world.pick(tabs);
      world.crash(crashed);
      tabs.splice(tabs.indexOf(crashed), 1, world.openTab('rater'));
      outcome.crashes += 1;
    }
  }
  world.faults = false;
  for (let i = 0; i < 4_000 && (world.disk.size > 0 || i < 200); i += 1) {
    if (i % 50 === 0) {
      decide(tabs[0]!);
      world.pokeAll();
    }
    await settleOne();
  }
  expect(world.disk.size, `seed ${seed}: all is sent in the end`).toBe(0);

  const { effects } = world.service;
  const ids = effects.map(({ id }) => id);
  expect(new Set(ids).size, `seed ${seed}: none doubled`).toBe(ids.length);
  const missing = [...order.keys()].filter((id) => !ids.includes(id));
  expect(missing.toSorted(), `seed ${seed}: none lost but what was taken back`).toEqual(
    [...world.takenBack].toSorted(),
  );
  for (const lane of lanes) {
    const arrived = effects.filter((each) => each.lane === lane).map(({ id }) => order.get(id)!.seq);
    expect(arrived, `seed ${seed}: in order within ${lane}`).toEqual(arrived.toSorted((a, b) => a - b));
  }
  for (const { id, text } of effects) expect(text).toBe(order.get(id)!.text);
  outcome.withdrawn = world.takenBack.size;
  outcome.entered = order.size;
  outcome.duplicates = world.service.duplicates;
  world.closeAll();
  return outcome;
}

it(`loses and doubles nothing in ${schedules} days of faults, and keeps the order within a house`, async () => {
  const all: Outcome[] = [];
  for (let seed = 1; seed <= schedules; seed += 1) all.push(await day(seed));
  const sum = (key: keyof Outcome) => all.reduce((total, each) => total + each[key], 0);
  // The days were as bad as they were meant to be.
  expect(sum('crashes')).toBeGreaterThan(schedules);
  expect(sum('duplicates')).toBeGreaterThan(schedules);
  expect(sum('withdrawn')).toBeGreaterThan(schedules / 20);
  expect(sum('decided')).toBeGreaterThan(schedules / 2);
  expect(sum('entered')).toBeGreaterThan(8 * schedules);
}, 120_000);

it('waits longer with each failure, never all alike, and at most two minutes', () => {
  expect([1, 2, 3, 4].map((failures) => pauseAfter(failures, () => 1))).toEqual([1000, 2000, 4000, 8000]);
  expect(pauseAfter(3, () => 0)).toBe(2000);
  expect(pauseAfter(60, () => 1)).toBe(120_000);
});
