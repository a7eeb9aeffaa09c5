import type { RecallResult } from '@countercheck/contracts';
import {
  instrumentErrorWords,
  recallOutcome,
  type Flip,
  type InstrumentError,
  type Recall,
  type ReadingChange,
} from '@countercheck/assessment';
import type { InstrumentKind, UnitSystem } from '@countercheck/measurement';
import type { Prisma } from '@countercheck/prisma';
import { system } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';
import type { RunWork } from '../../kernel/runs/runner.ts';
import { assessHouse, companyOptions, isoDate } from '../assessment/index.ts';
import { grouped } from './grouped.ts';
import { draftLetter, type LetterHouse } from './letters.ts';

const withInstrument = { instrument: true } satisfies Prisma.RecallInclude;
type RecallRow = Prisma.RecallGetPayload<{ include: typeof withInstrument }>;

const recallOf = (row: RecallRow): Recall => ({
  instrumentId: row.instrumentId,
  from: isoDate(row.fromOn),
  to: isoDate(row.toOn),
  error: row.error as unknown as InstrumentError,
});

async function housesRead(db: Db, { instrumentId, from, to }: Recall, timezone: string): Promise<string[]> {
  const rows = await db.$queryRaw<{ id: string }[]>`
    SELECT DISTINCT house_id AS id FROM readings WHERE instrument_id = ${instrumentId}::uuid
      AND (taken_at AT TIME ZONE ${timezone})::date BETWEEN ${from}::date AND ${to}::date ORDER BY 1`;
  return rows.map(({ id }) => id);
}

const json = (value: unknown) => JSON.parse(JSON.stringify(value)) as Prisma.InputJsonValue;

/** Works out one house and keeps what was found; the house itself is only read. */
async function lookAt(
  db: Db,
  { recallId, recall, system: units }: { recallId: string; recall: Recall; system: UnitSystem },
  houseId: string,
): Promise<void> {
  const { file, ruleSet } = await assessHouse(db, houseId);
  const outcome = recallOutcome(file, recall, ruleSet.evaluate, units);
  if (!outcome.ok) throw new Error(outcome.problem.message);
  const { readings, flips, revisit } = outcome.value;
  if (readings.length === 0) return;
  const { stage } = await db.house.findUniqueOrThrow({ where: { id: houseId }, select: { stage: true } });
  await db.recallHouse.create({
    data: {
      ...{ recallId, houseId, revisit },
      sealed: stage === 'released',
      flipped: flips.length > 0,
      readings: json(readings),
      flips: json(flips),
    },
  });
}

const found = {
  house: {
    include: { builder: { select: { id: true, name: true } }, community: { select: { name: true } } },
  },
} satisfies Prisma.RecallHouseInclude;
type Found = Prisma.RecallHouseGetPayload<{ include: typeof found }>;

const readingsOf = (row: Found) => row.readings as unknown as ReadingChange[];
const flipsOf = (row: Found) => row.flips as unknown as Flip[];

function letterHouse(row: Found): LetterHouse {
  const { address, lot, community } = row.house;
  return {
    place: `${address} (lot ${lot}, ${community.name})`,
    sealed: row.sealed,
    revisit: row.revisit,
    notCorrected: readingsOf(row).filter(({ whyNot }) => whyNot !== null).length,
    flips: flipsOf(row),
  };
}

/** Drafts for the builders whose houses a verdict flips in, or have to be measured again. */
async function draft(db: Db, row: RecallRow, rows: readonly Found[]): Promise<number> {
  const { name: company } = await companyOptions(db);
  const byBuilder = grouped(
    rows.filter((each) => each.revisit || flipsOf(each).some(({ direction }) => direction === 'better')),
    ({ house }) => house.builder.id,
  );
  const { label, serial, kind } = row.instrument;
  const recall = recallOf(row);
  const data = [...byBuilder].map(([builderId, houses]) => ({
    ...{ recallId: row.id, builderId, houses: houses.length },
    ...draftLetter({
      builder: houses[0]!.house.builder.name,
      company,
      instrument: `${label} (serial number ${serial})`,
      error: instrumentErrorWords(recall.error, kind as InstrumentKind),
      ...{ from: recall.from, to: recall.to, reason: row.reason },
      houses: houses.map(letterHouse),
    }),
  }));
  await db.recallLetter.createMany({ data });
  return data.length;
}

function countAll(rows: readonly Found[], letters: number): RecallResult {
  const readings = rows.flatMap(readingsOf);
  const flips = rows.flatMap(flipsOf);
  const concerned = rows.filter((each) => each.flipped || each.revisit);
  return {
    houses: rows.length,
    readings: readings.length,
    notCorrected: readings.filter(({ whyNot }) => whyNot !== null).length,
    flipped: rows.filter((each) => each.flipped).length,
    worse: flips.filter(({ direction }) => direction === 'worse').length,
    better: flips.filter(({ direction }) => direction === 'better').length,
    revisit: rows.filter((each) => each.revisit).length,
    sealed: concerned.filter((each) => each.sealed).length,
    letters,
  };
}

/** What a recall does in the background: nothing of a house is changed, no letter is sent. */
export function recallWork(database: Database): RunWork {
  const as = <T>(work: (db: Db) => Promise<T>) => database.as(system, work);
  return {
    kind: 'recall',
    async work(id, progress, signal) {
      const row = await as((db) => db.recall.findUniqueOrThrow({ where: { id }, include: withInstrument }));
      const recall = recallOf(row);
      const houses = await as(async (db) => housesRead(db, recall, (await companyOptions(db)).timezone));
      // the letters are the company's, and so are their units
      const { unitSystem } = await as((db) =>
        db.company.findUniqueOrThrow({ where: { id: 1 }, select: { unitSystem: true } }),
      );
      progress.total = houses.length;
      for (const houseId of houses) {
        signal.throwIfAborted();
        await as((db) => lookAt(db, { recallId: id, recall, system: unitSystem }, houseId));
        progress.done += 1;
      }
      return async (db) => {
        const rows = await db.recallHouse.findMany({
          where: { recallId: id },
          include: found,
          orderBy: { houseId: 'asc' },
        });
        const result = countAll(rows, await draft(db, row, rows));
        await db.recall.update({ where: { id }, data: { result } });
        await record(db, system, null, {
          ...{ action: 'recall ended', recordType: 'recall', recordId: id },
          after: result,
        });
      };
    },
    async clear(db, id) {
      await db.recallHouse.deleteMany({ where: { recallId: id } });
    },
  };
}
