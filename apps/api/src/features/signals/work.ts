import type { SignalRunResult } from '@countercheck/contracts';
import {
  beginLook,
  biases,
  compared,
  drift,
  findingsAt,
  judgeTogether,
  levelOf,
  matched,
  type Compared,
  type Judged,
} from '@countercheck/signals';
import type { Prisma } from '@countercheck/prisma';
import { system } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';
import type { RunWork } from '../../kernel/runs/runner.ts';
import { companyOptions, dayAt, isoDate } from '../assessment/index.ts';
import { figuresOf } from './figure.ts';
import { hashSome, picturesElsewhere, readPhotos } from './pictures.ts';
import { ratersOf, readPlaces, readReadings, type Period } from './readings.ts';

/** A look each month: the year's budget of false alarms is divided by so many. */
const looksAYear = 12;

const json = (value: unknown) => JSON.parse(JSON.stringify(value)) as Prisma.InputJsonValue;
const inPercent = (share: number) => Math.round(share * 10_000) / 100;

const recordId = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** Addresses and names instead of ids, where a row of the evidence names a house or a rater. */
async function readable(db: Db, findings: readonly Judged[]): Promise<Judged['evidence'][]> {
  const cells = findings.flatMap(({ evidence }) => evidence.rows.flat());
  const ids = [
    ...new Set(cells.filter((cell): cell is string => typeof cell === 'string' && recordId.test(cell))),
  ];
  const people = await db.user.findMany({ where: { id: { in: ids } }, select: { id: true, name: true } });
  const names = new Map(people.map((person) => [person.id, person.name]));
  for (const { id: houseId, address, lot } of await readPlaces(db, ids))
    names.set(houseId, `${address} (lot ${lot})`);
  const told = (cell: string | number | null) =>
    typeof cell === 'number' ? Number(cell.toPrecision(5)) : ((cell && names.get(cell)) ?? cell);
  return findings.map(({ evidence }) => ({ ...evidence, rows: evidence.rows.map((row) => row.map(told)) }));
}

async function biasOf(
  db: Db,
  readings: readonly Compared[],
  timezone: string,
): Promise<Pick<SignalRunResult, 'raterBias' | 'instrumentDrift'>> {
  const rows = matched(readings);
  const byRater = biases(rows, ({ raterId }) => raterId);
  const users = await db.user.findMany({
    where: { id: { in: byRater.map(({ id }) => id) } },
    select: { id: true, name: true },
  });
  const nameOf = new Map(users.map(({ id, name }) => [id, name]));
  const byInstrument = new Map<string, { houseId: string; at: number; residual: number }[]>();
  for (const { instrumentId, houseId, at, residual } of rows) {
    if (instrumentId === null) continue;
    const known = byInstrument.get(instrumentId) ?? [];
    known.push({ houseId, at, residual });
    byInstrument.set(instrumentId, known);
  }
  const instruments = await db.instrument.findMany({ where: { id: { in: [...byInstrument.keys()] } } });
  return {
    raterBias: byRater
      .map(({ id, n, readings: taken, mean, estimate, error }) => ({
        ...{ id, name: nameOf.get(id) ?? '', readings: taken, houses: n, mean: inPercent(mean) },
        ...{ estimate: inPercent(estimate), error: inPercent(error) },
      }))
      .sort((a, b) => a.name.localeCompare(b.name)),
    instrumentDrift: instruments.flatMap(({ id, label, serial, accuracyPercent }) => {
      const found = drift(byInstrument.get(id) ?? [], accuracyPercent / 100);
      if (!found) return [];
      return [
        {
          ...{
            id,
            name: `${label} (${serial})`,
            readings: found.n,
            houses: found.houses,
            change: inPercent(found.change),
            p: found.p,
          },
          ...{ accuracy: accuracyPercent, recall: found.recall },
          since: found.since === null ? null : dayAt(new Date(found.since), timezone),
        },
      ];
    }),
  };
}

/** The same text once, however often the database sent it. */
function once(): (text: string) => string {
  const seen = new Map<string, string>();
  return (text) => seen.get(text) ?? (seen.set(text, text), text);
}

/**
 * What a look does in the background: it reads, and stores what stood out; nothing of a house is changed. Every rater
 * is read twice, for what is usual and to be held against it, so that never more than one is in memory.
 */
export function signalWork(database: Database): RunWork {
  const as = <T>(work: (db: Db) => Promise<T>) => database.as(system, work);
  return {
    kind: 'signals',
    async work(runId, progress, signal) {
      const row = await as((db) => db.signalRun.findUniqueOrThrow({ where: { id: runId } }));
      const { timezone } = await as((db) => companyOptions(db));
      const period: Period = { from: isoDate(row.fromOn), to: isoDate(row.toOn), timezone };
      while ((await as((db) => hashSome(db, period))) > 0) signal.throwIfAborted();
      const raters = await as((db) => ratersOf(db, period));
      progress.total = 2 * raters.length;
      const figuresBy = async (raterId: string) =>
        figuresOf(await as((db) => readReadings(db, { raterId }, period)));

      const begun = beginLook();
      const houses = new Set<string>();
      const besideReported: Compared[] = [];
      let readings = 0;
      const same = once();
      for (const { id: raterId } of raters) {
        signal.throwIfAborted();
        const figures = await figuresBy(raterId);
        begun.read({ raterId, figures });
        readings += figures.length;
        for (const { houseId } of figures) houses.add(houseId);
        for (const each of compared(figures))
          besideReported.push({
            ...{ ...each, raterId, houseId: same(each.houseId), item: same(each.item) },
            installerId: each.installerId && same(each.installerId),
            instrumentId: each.instrumentId && same(each.instrumentId),
          });
        progress.done += 1;
      }

      const alike = await picturesElsewhere(as, signal);
      const outcomes = [];
      for (const { id: raterId } of raters) {
        signal.throwIfAborted();
        const figures = await figuresBy(raterId);
        const houseIds = [...new Set(figures.map(({ houseId }) => houseId))];
        const places = await as((db) => readPlaces(db, houseIds));
        const stops = new Map(places.map((place) => [place.id, { ...place, houseId: place.id }]));
        const photos = await as((db) => readPhotos(db, raterId, period));
        outcomes.push(begun.judge({ raterId, figures, stops, photos }, alike));
        progress.done += 1;
      }
      const judged = judgeTogether(outcomes);
      const level = levelOf(raters.length, looksAYear);
      const findings = findingsAt(level, judged);
      signal.throwIfAborted();
      const [evidence, bias] = await as(async (db) => [
        await readable(db, findings),
        await biasOf(db, besideReported, timezone),
      ]);
      return async (db) => {
        await db.signalFinding.createMany({
          data: findings.map((found, i) => ({
            ...{ runId, signal: found.signal, raterId: found.raterId, sentence: found.sentence },
            ...{ looked: found.looked, p: found.p ?? 1, q: found.q, houseIds: found.houseIds },
            evidence: json(evidence[i]),
          })),
        });
        const result: SignalRunResult = {
          ...{ raters: raters.length, houses: houses.size, readings },
          ...{ tests: judged.length, findings: findings.length, level },
          ...bias,
        };
        await db.signalRun.update({ where: { id: runId }, data: { result } });
        await record(db, system, null, {
          ...{ action: 'look at readings ended', recordType: 'signal run', recordId: runId },
          after: { raters: result.raters, readings: result.readings, findings: result.findings },
        });
      };
    },
    async clear(db, runId) {
      await db.signalFinding.deleteMany({ where: { runId } });
    },
  };
}
