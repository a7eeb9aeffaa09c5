import type { Figure, InstrumentDoubt } from '../figures.ts';
import { binomialAtLeast } from '../statistics/tails.ts';
import { mostHouses, tooLittle, type Outcome } from './finding.ts';

/** A slip of the pen, or of the choice of instrument: share of readings. A mark of our own. */
const slips = 0.02;
const least = 10;

const doubtWords: Record<InstrumentDoubt, string> = {
  'finer-than-display': 'finer than the display shows',
  'outside-range': 'outside the calibrated range',
  'not-calibrated': 'before any calibration',
  'calibration-overdue': 'after the calibration was due',
};

/**
 * Are there readings that the instrument cannot have given that day?
 *
 * A number between two steps of the display, a pressure outside the calibrated range, an instrument that was not
 * calibrated or overdue. Null hypothesis: a reading is so by a slip at most once in fifty. Statistic: how many are.
 * p-value: upper tail of the binomial distribution. Source: arithmetic; the mark is our own.
 * Fewer than ten readings with an instrument: no p-value. Never throws.
 */
export function instrument(figures: readonly Figure[]): Outcome {
  const read = figures.filter(({ instrumentId }) => instrumentId !== null);
  if (read.length < least) return tooLittle('instrument', read.length);
  const doubted = read.filter(({ doubts }) => doubts.length > 0);
  const kinds = (Object.keys(doubtWords) as InstrumentDoubt[])
    .map((doubt) => ({ doubt, count: doubted.filter(({ doubts }) => doubts.includes(doubt)).length }))
    .filter(({ count }) => count > 0);
  const words = kinds.map(({ doubt, count }) => `${count} ${doubtWords[doubt]}`).join(', ');
  return {
    signal: 'instrument',
    looked: read.length,
    p: binomialAtLeast(doubted.length, read.length, slips),
    sentence: `${doubted.length} of ${read.length} readings do not fit the instrument they name${words ? ` (${words})` : ''}.`,
    houseIds: [...new Set(doubted.map(({ houseId }) => houseId))].slice(0, mostHouses),
    evidence: {
      kind: 'bars',
      xLabel: 'What does not fit',
      yLabel: 'Readings',
      columns: ['What does not fit', 'Readings'],
      rows: kinds.map(({ doubt, count }) => [doubtWords[doubt], count]),
    },
  };
}
