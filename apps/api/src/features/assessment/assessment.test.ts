import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { commonPractice } from '../../../../../packages/rules/src/test/sets.ts';
import { startApp, type TestApp } from '../../../../../tests/support/app.ts';
import { bookVisit, partsOf, readingOf, signFigures } from '../../../../../tests/support/house-life.ts';
import { system, type Actor } from '../../kernel/actor.ts';
import { asSystem } from '../../kernel/database/as-system.ts';
import {
  assessHouse,
  calibrationOn,
  compiledRuleSet,
  dayAt,
  hideUnread,
  loadHouseFile,
  reassess,
  type InstrumentRow,
} from './index.ts';

let test: TestApp;
beforeAll(async () => {
  test = await startApp();
});
afterAll(() => test.close());

const inside = <T>(work: Parameters<typeof test.app.database.as<T>>[1]) => test.app.database.as(system, work);

describe('the day of a reading', () => {
  it('is the calendar’s day at the houses, not in Greenwich', () => {
    expect(dayAt(new Date('2026-03-02T04:30:00Z'), 'US/Central')).toBe('2026-03-01');
    expect(dayAt(new Date('2026-03-02T06:30:00Z'), 'US/Central')).toBe('2026-03-02');
  });

  it('says which calibration was in force', () => {
    const calibrations = ['2025-02-01', '2026-02-01', '2024-02-01'].map((day) => ({
      id: day,
      calibratedOn: new Date(day),
      dueOn: new Date('2027-01-01'),
    }));
    const instrument = { calibrations } as unknown as InstrumentRow;
    expect(calibrationOn(instrument, '2026-01-31')?.id).toBe('2025-02-01');
    expect(calibrationOn(instrument, '2026-02-01')?.id).toBe('2026-02-01');
    expect(calibrationOn(instrument, '2023-12-31')).toBeUndefined();
  });
});

describe('a house’s verdicts', () => {
  it('are stored once, and told only when they change', async () => {
    const { id } = test.company.house;
    const events = () =>
      inside((db) => db.event.count({ where: { houseId: id, action: 'verdict changed' } }));
    const rows = () =>
      inside((db) => db.itemResult.findMany({ where: { houseId: id }, orderBy: { id: 'asc' } }));
    await inside((db) => reassess(db, system, null, id));
    const first = await rows();
    expect(first.length).toBeGreaterThan(10);
    await inside((db) => reassess(db, system, null, id));
    expect(await rows()).toEqual(first);
    expect(await events()).toBe(0);
    await inside((db) => db.houseSystem.updateMany({ where: { houseId: id }, data: { hasDucts: false } }));
    await inside((db) => reassess(db, system, null, id));
    expect(await events()).toBeGreaterThan(0);
    await inside((db) => db.houseSystem.updateMany({ where: { houseId: id }, data: { hasDucts: true } }));
    await inside((db) => reassess(db, system, null, id));
    expect((await rows()).map(({ item, status }) => `${item} ${status}`).sort()).toEqual(
      first.map(({ item, status }) => `${item} ${status}`).sort(),
    );
  });

  it('are worked out whole for a builder, who sees no reading, and nothing more is shown to it', async () => {
    const { house, builder, users } = test.company;
    await signFigures(test, house);
    const visit = await bookVisit(test, house.id);
    const manometer = test.company.instruments.manometer.id;
    const raw = { values: { pressure: 0.09 } };
    await (
      await test.as('rater')
    ).post(`/visits/${visit}/readings`, readingOf('supply-static', partsOf(house).system, manometer, raw));
    const actor: Actor = {
      kind: 'user',
      ...{ id: users.builder.id, name: users.builder.name, role: 'builder', builderId: builder.id },
    };
    await test.app.database.as(actor, async (db) => {
      const { counts } = await reassess(db, actor, null, house.id);
      expect(counts.pass).toBe(1);
      expect(await db.reading.count()).toBe(0);
      await asSystem(db, actor, () =>
        asSystem(db, actor, async () => undefined).then(async () => expect(await db.reading.count()).toBe(1)),
      );
      expect(await db.reading.count()).toBe(0);
    });
  });

  it('come from figures that are frozen, whatever was signed after', async () => {
    const { house } = test.company;
    await signFigures(test, house, { supplyStatic: 0.5 });
    const file = await inside((db) => loadHouseFile(db, house.id));
    expect(file.reported[partsOf(house).system]).toMatchObject({ supplyStatic: 0.085 });
  });

  it('are compiled once for a rule set', async () => {
    const [one, two] = await Promise.all(
      [1, 2].map(() => inside((db) => compiledRuleSet(db, test.company.ruleSet.id))),
    );
    expect((await inside((db) => compiledRuleSet(db, test.company.ruleSet.id))).evaluate).toBe(two!.evaluate);
    expect(one!.key).toBe('common-practice');
  });
});

describe('what a blind second reading hides', () => {
  it('ends for a room with either of the two tests that answer its item', async () => {
    const { house } = test.company;
    const { bedroom, otherBedroom } = partsOf(house);
    const { file } = await inside((db) => assessHouse(db, house.id));
    const reading = { ...file.readings[0]!, test: 'bedroom-pressure' as const, subjectId: bedroom };
    const reported = { [bedroom]: { supplyFlow: 100 }, [otherBedroom]: { supplyFlow: 80 } };
    const hidden = hideUnread({ ...file, reported, readings: [reading] }, commonPractice);
    expect(hidden.reported).toEqual({ [bedroom]: { supplyFlow: 100 }, [otherBedroom]: {} });
    expect(hidden.hidden.filter(({ subjectId }) => subjectId === bedroom)).toEqual([]);
    expect(reported[otherBedroom]).toEqual({ supplyFlow: 80 });
  });
});
