import { greatCircle } from '../comparison/great-circle.ts';
import type { Figure, Stop } from '../figures.ts';
import { binomialAtLeast } from '../statistics/tails.ts';
import { mostHouses, tooLittle, type Outcome } from './finding.ts';

/** Nobody drives faster than this from door to door, in a straight line; km/h. A mark of our own. */
const fastest = 90;
/** Getting in and out of two houses takes at least so long; minutes. Common practice, no published source. */
const between = 3;
/** A wrong clock or a reading entered late makes a way impossible now and then; share of ways. A mark of our own. */
const slips = 0.01;
const least = 5;
const day = 86_400_000;

interface Way {
  from: string;
  to: string;
  minutes: number;
  needed: number;
  km: number;
}

/**
 * Was the rater in two places at once?
 *
 * Each reading carries the time of the device. Between the last reading in one house and the first in the next there
 * must be time for the way: great-circle distance at 90 km/h and three minutes. Null hypothesis: a way is impossible
 * by a slip (wrong clock, reading entered late) at most once in a hundred. Statistic: how many of the rater's ways are.
 * p-value: upper tail of the binomial distribution. Source: arithmetic; the marks are our own. Going to and fro between
 * two houses within a day is one way, the worst of them, since one wrong clock makes all of them impossible.
 * Houses without coordinates count with no distance. Fewer than five ways: no p-value. Never throws.
 */
export function pace(figures: readonly Figure[], stops: ReadonlyMap<string, Stop>): Outcome {
  const inOrder = [...figures].sort((a, b) => a.at - b.at);
  const byStretch = new Map<string, Way>();
  inOrder.forEach((next, i) => {
    const last = inOrder[i - 1];
    if (!last || last.houseId === next.houseId) return;
    const minutes = (next.at - last.at) / 60_000;
    if (minutes > 24 * 60) return;
    const km = greatCircle(stops.get(last.houseId), stops.get(next.houseId));
    const way = { from: last.houseId, to: next.houseId, minutes, km, needed: between + (km / fastest) * 60 };
    // One clock that is wrong by an hour shuffles two houses into each other, and that is one slip.
    const stretch = `${[way.from, way.to].sort().join(' ')} ${Math.floor(last.at / day)}`;
    const known = byStretch.get(stretch);
    if (!known || minutes - way.needed < known.minutes - known.needed) byStretch.set(stretch, way);
  });
  const ways = [...byStretch.values()];
  if (ways.length < least) return tooLittle('pace', ways.length);
  const impossible = ways
    .filter(({ minutes, needed }) => minutes < needed)
    .sort((a, b) => a.minutes - a.needed - (b.minutes - b.needed));
  return {
    signal: 'pace',
    looked: ways.length,
    p: binomialAtLeast(impossible.length, ways.length, slips),
    sentence: `${impossible.length} of ${ways.length} ways between houses left less time, by the device, than the way takes.`,
    houseIds: [...new Set(impossible.flatMap(({ from, to }) => [from, to]))].slice(0, mostHouses),
    evidence: {
      kind: 'none',
      xLabel: '',
      yLabel: '',
      columns: ['From house', 'To house', 'Distance, km', 'Minutes between readings', 'Minutes needed'],
      rows: impossible
        .slice(0, 60)
        .map(({ from, to, km, minutes, needed }) => [
          from,
          to,
          Number(km.toFixed(1)),
          Number(minutes.toFixed(1)),
          Number(needed.toFixed(1)),
        ]),
    },
  };
}
