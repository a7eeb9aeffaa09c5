import type { SignalRunResult } from '@countercheck/contracts';
import {
  biases,
  drift,
  findingsAt,
  levelOf,
  look,
  matched,
  type Figure,
  type Judged,
  type RaterYear,
} from '@countercheck/signals';
import type { Prisma } from '@countercheck/prisma';
import { system } from '../../kernel/actor.ts';
import type { Database, Db } from '../../kernel/database/database.ts';
import { record } from '../../kernel/records/events.ts';
import type { RunWork } from '../../kernel/runs/runner.ts';
import { companyOptions, isoDate } from '../assessment/index.ts';
import { figuresOf } from './figure.ts';
import { hashSome, readPhotos } from './pictures.ts';
import { ratersOf, readPlaces, readReadings, type Period, type PlaceRow } from './readings.ts';

/** A look each month: the year's budget of false alarms is divided by so many. */
const looksAYear = 12;
const level = levelOf(looksAYear);

const json = (value: unknown) => JSON.parse(JSON.stringify(value)) as Prisma.InputJsonValue;
const inPercent = (share: number) => Math.round(share * 10_000) / 100;

/** Addresses instead of ids, where a row of the evidence names a house. */
function readable({ evidence }: Judged, places: ReadonlyMap<string, PlaceRow>): Judged['evidence'] {
  const named = (cell: string | number | null) => {
    const place = typeof cell === 'string' ? places.get(cell) : undefined;
    return place ? `${place.address} (lot ${place.lot})` : cell;
  };
  const rows = evidence.rows.map((row) =>
    row.map(named).map((cell) => (typeof cell === 'number' ? Number(cell.toPrecision(5)) : cell)),
  );
  return { ...evidence, rows };
}

async function biasOf(
  db: Db,
  figures: readonly Figure[],
): Promise<Pick<SignalRunResult, 'raterBias' | 'instrumentDrift'>> {
  const rows = matched(figures);
  const byRater = biases(rows, ({ raterId }) => raterId);
  const users = await db.user.findMany({
    where: { id: { in: byRater.map(({ id }) => id) } },
    select: { id: true, name: true },
  });
  const nameOf = new Map(users.map(({ id, name }) => [id, name]));
  const byInstrument = new Map<string, { at: number; residual: number }[]>();
  for (const { figure, residual } of rows) {
    if (figure.instrumentId === null) continue;
    const known = byInstrument.get(figure.instrumentId) ?? [];
    known.push({ at: figure.at, residual });
    byInstrument.set(figure.instrumentId, known);
  }
  const instruments = await db.instrument.findMany({ where: { id: { in: [...byInstrument.keys()] } } });
  return {
    raterBias: byRater
      .map(({ id, n, mean, estimate, error }) => ({
        ...{ id, name: nameOf.get(id) ?? '', readings: n, mean: inPercent(mean) },
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
            change: inPercent(found.change),
            p: found.p,
          },
          ...{ accuracy: accuracyPercent, recall: found.recall },
          since: found.since === null ? null : isoDate(new Date(found.since)),
        },
      ];
    }),
  };
}

/** What a look does in the background: it reads, and stores what stood out; nothing of a house is changed. */
export function signalWork(database: Database): RunWork {
  const as = <T>(work: (db: Db) => Promise<T>) => database.as(system, work);
  return {
    kind: 'signals',
    async work(id, progress, signal) {
      const row = await as((db) => db.signalRun.findUniqueOrThrow({ where: { id } }));
      const { timezone } = await as((db) => companyOptions(db));
      const period: Period = { from: isoDate(row.fromOn), to: isoDate(row.toOn), timezone };
      while ((await as((db) => hashSome(db, period))) > 0) signal.throwIfAborted();
      const raters = await as((db) => ratersOf(db, period));
      progress.total = raters.length;
      const years: RaterYear[] = [];
      const places = new Map<string, PlaceRow>();
      for (const { id: raterId } of raters) {
        signal.throwIfAborted();
        years.push(
          await as(async (db) => {
            const figures = figuresOf(await readReadings(db, { raterId }, period));
            const houseIds = [...new Set(figures.map(({ houseId }) => houseId))];
            for (const place of await readPlaces(db, houseIds)) places.set(place.id, place);
            const photos = await readPhotos(db, raterId, period);
            const stops = new Map(
              houseIds.flatMap((houseId) => {
                const place = places.get(houseId);
                return place ? [[houseId, { houseId, ...place }] as const] : [];
              }),
            );
            return { raterId, figures, stops, photos };
          }),
        );
        progress.done += 1;
      }
      const judged = look(years);
      signal.throwIfAborted();
      const findings = findingsAt(level, judged);
      const figures = years.flatMap((year) => year.figures);
      return async (db) => {
        await db.signalFinding.createMany({
          data: findings.map((found) => ({
            ...{ runId: id, signal: found.signal, raterId: found.raterId, sentence: found.sentence },
            ...{ looked: found.looked, p: found.p ?? 1, q: found.q, houseIds: found.houseIds },
            evidence: json(readable(found, places)),
          })),
        });
        const result: SignalRunResult = {
          ...{ raters: raters.length, houses: places.size, readings: figures.length },
          ...{ tests: judged.length, findings: findings.length, level },
          ...(await biasOf(db, figures)),
        };
        await db.signalRun.update({ where: { id }, data: { result } });
        await record(db, system, null, {
          ...{ action: 'look at readings ended', recordType: 'signal run', recordId: id },
          after: { raters: result.raters, readings: result.readings, findings: result.findings },
        });
      };
    },
    async clear(db, id) {
      await db.signalFinding.deleteMany({ where: { runId: id } });
    },
  };
}
