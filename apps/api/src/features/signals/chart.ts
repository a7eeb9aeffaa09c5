import type { FastifyInstance } from 'fastify';
import { routes, type ControlChart } from '@countercheck/contracts';
import { cusumChart, ewmaChart, individualsChart, type Figure } from '@countercheck/signals';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { companyOptions } from '../assessment/index.ts';
import { figuresOf } from './figure.ts';
import { readPlaces, readReadings, type ReadingsOf } from './readings.ts';

/** More points than these no drawing shows; the newest are kept. */
const mostPoints = 400;
/** Beside some of them nothing was reported, so that more are read than drawn. */
const mostRead = 5 * mostPoints;

async function nameOf(db: Db, subject: 'rater' | 'installer' | 'instrument', id: string): Promise<string> {
  const where = { id };
  if (subject === 'rater')
    return found(await db.user.findFirst({ where: { id, role: 'rater' } }), 'rater').name;
  if (subject === 'installer') return found(await db.installer.findUnique({ where }), 'installer').name;
  const { label, serial } = found(await db.instrument.findUnique({ where }), 'instrument');
  return `${label} (${serial})`;
}

const readingsOf = {
  rater: (raterId: string): ReadingsOf => ({ raterId }),
  installer: (installerId: string): ReadingsOf => ({ installerId }),
  instrument: (instrumentId: string): ReadingsOf => ({ instrumentId }),
};

/** Reading less reported, in percent of the reported figure, in the order in which they were taken. */
function followed(figures: readonly Figure[]) {
  return figures
    .flatMap((figure) => {
      const { value, reported } = figure;
      return value !== null && reported ? [{ figure, value: (value / reported - 1) * 100 }] : [];
    })
    .slice(-mostPoints);
}

const rounded = (value: number) => Number(value.toFixed(3));

function charted(
  rows: ReturnType<typeof followed>,
  addressOf: ReadonlyMap<string, string>,
): Pick<ControlChart, 'points' | 'limits' | 'outside'> {
  const values = rows.map(({ value }) => value);
  const single = individualsChart(values);
  const usable = single !== null && single.sigma > 0;
  const around = usable ? { target: single.mean, sigma: single.sigma } : null;
  const [ewma, cusum] = around ? [ewmaChart(values, around), cusumChart(values, around)] : [null, null];
  const points = rows.map(({ figure, value }, i) => ({
    ...{ readingId: figure.readingId, houseId: figure.houseId, address: addressOf.get(figure.houseId) ?? '' },
    ...{ at: new Date(figure.at).toISOString(), value: rounded(value) },
    range: i === 0 ? null : rounded(Math.abs(value - values[i - 1]!)),
    ewma: rounded(ewma?.means[i] ?? value),
    high: rounded(cusum?.high[i] ?? 0),
    low: rounded(cusum?.low[i] ?? 0),
  }));
  if (!usable || !ewma || !cusum) return { points, limits: null, outside: [] };
  const say = (places: readonly number[], what: string) =>
    places.length === 0 ? [] : [`${places.length} ${what}, first at ${points[places[0]!]!.address}`];
  return {
    points,
    limits: {
      ...{ mean: rounded(single.mean), sigma: rounded(single.sigma) },
      ...{
        upper: rounded(single.upper),
        lower: rounded(single.lower),
        upperRange: rounded(single.upperRange),
      },
      ...{ ewmaUpper: rounded(ewma.upper.at(-1)!), ewmaLower: rounded(ewma.lower.at(-1)!) },
      decision: rounded(cusum.decision),
    },
    outside: [
      ...say(single.outside, 'single readings lie outside three standard deviations'),
      ...say(single.rangesOutside, 'steps from one reading to the next are larger than usual'),
      ...say(ewma.outside, 'weighted means lie outside their limits'),
      ...say(cusum.outside, 'cumulative sums lie above the decision limit'),
    ],
  };
}

export function drawCharts(app: FastifyInstance): void {
  implementInTransaction(app, routes.signals.chart, async ({ db, query }) => {
    const { subject, id, item, from = '2000-01-01', to = '2999-12-31' } = query;
    const name = await nameOf(db, subject, id);
    const { timezone } = await companyOptions(db);
    const rows = await readReadings(
      db,
      readingsOf[subject](id),
      { from, to, timezone },
      {
        ...{ tests: [item], newest: mostRead },
      },
    );
    const points = followed(figuresOf(rows));
    const places = await readPlaces(db, [...new Set(points.map(({ figure }) => figure.houseId))]);
    return { name, item, ...charted(points, new Map(places.map((place) => [place.id, place.address]))) };
  });
}
