import { createHash } from 'node:crypto';
import type { Demo, YearStory } from '@countercheck/prisma/demo';
import { batchRulesOf, testingOrder } from '@countercheck/sampling';
import { system } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';

const rules = batchRulesOf('one-in-seven');
const minute = 60_000;

/** A row of houses of one builder: so many that passed, and then one that did not, in the order in which they were measured. */
function findRow(
  houses: readonly YearStory[],
): { passed: YearStory[]; failed: YearStory; later: YearStory[] } | null {
  const entry = rules.passesToEnter.value;
  for (let at = houses.length - 1 - rules.widening.value; at >= entry; at -= 1) {
    const passed = houses.slice(at - entry, at);
    const later = houses.slice(at + 1, at + 1 + rules.widening.value);
    if (houses[at]!.failed.length > 0 && [...passed, ...later].every(({ failed }) => failed.length === 0))
      return { passed, failed: houses[at]!, later };
  }
  return null;
}

/** A seed whose order tests these houses first: found by trying, as nobody could in a batch whose seed is drawn. */
function seedFor(ids: readonly string[], first: readonly string[]): string {
  for (let n = 0; n < 100_000; n += 1) {
    const seed = createHash('sha256').update(`demo set ${n}`).digest('hex');
    const order = testingOrder(ids, seed);
    if (first.every((id, i) => order[i] === id)) return seed;
  }
  throw new Error('No seed gives this order of testing.');
}

/**
 * A batch of one builder that samples: three houses passed one after the other, a set of seven was opened, the one
 * that was tested failed, was corrected, and two more of the set are to be tested, of which one was.
 */
export async function openBatch(db: Db, { stories, year, cast }: Demo): Promise<void> {
  const measured = (story: YearStory) => story.visits[0]!.submittedAt!.getTime();
  const byBuilder = [...new Set(year.map(({ builder }) => builder))].map((builder) => ({
    waiting: stories.filter(
      (story) =>
        story.builder === builder && ['awaiting_figures', 'ready_to_book', 'booked'].includes(story.stage),
    ),
    row: findRow(year.filter((story) => story.builder === builder).sort((a, b) => measured(a) - measured(b))),
    builder,
  }));
  const fitting = byBuilder.find(({ row, waiting }) => row && waiting.length >= 4);
  if (!fitting?.row) throw new Error('No builder of the demo has houses for a batch.');
  const { passed, failed, later } = fitting.row;
  const { id: builderId, communityId } = cast.builders[fitting.builder]!;
  const { id: byId, name: byName } = cast.quality;
  const openedAt = new Date(measured(passed[0]!) - 24 * 60 * minute);
  const { id: batchId } = await db.batch.create({
    data: {
      ...{ title: 'Cottages of the second phase', builderId, communityId, planId: null, rulesKey: rules.key },
      ...{ trades: 'Northgable Air (ducts and equipment), one insulation crew', openedAt, openedById: byId },
      openedBy: byName,
    },
  });
  const first = [failed, ...later].map(({ house }) => house.id);
  const set = [...first, ...fitting.waiting.map(({ house }) => house.id)].slice(0, rules.setSize.value);
  const seed = seedFor(set, first);
  const after = (story: YearStory) => new Date(measured(story) + 30 * minute);
  const tested = (story: YearStory) => ({
    ...{ kind: 'tested', houseId: story.house.id, passed: story.failed.length === 0, at: after(story) },
  });
  const events = [
    ...passed.map(tested),
    {
      kind: 'set-opened',
      houseIds: testingOrder(set, seed),
      seed,
      at: new Date(after(passed.at(-1)!).getTime() + minute),
    },
    tested(failed),
    { kind: 'retested', houseId: failed.house.id, passed: true, at: new Date(failed.releasedAt) },
    tested(later[0]!),
  ].sort((a, b) => a.at.getTime() - b.at.getTime());
  await db.batchHouse.createMany({
    data: [...passed.map(({ house }) => house.id), ...set].map((houseId) => ({ houseId, batchId })),
  });
  for (const [i, event] of events.entries())
    await db.batchEvent.create({ data: { batchId, sequence: i + 1, byName, byId, ...event } });
  await record(db, system, null, {
    ...{ action: 'batch set opened', recordType: 'batch', recordId: batchId },
    after: { houseIds: testingOrder(set, seed), seed },
  });
}
