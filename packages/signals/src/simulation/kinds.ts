import type { Random } from '../statistics/random.ts';
import { newHouse, read, toStep, type Device, type TrueField } from './world.ts';

/** What is in front of a rater when a number is written down. */
export interface Scene {
  field: TrueField;
  reported: number | null;
  /** the limit in the unit of the field */
  limit: { value: number; inside: 'below' | 'above' } | null;
  device: Device;
  /** the step in which the field is written */
  step: number;
  /** what was written in the same place of the house before; null in the first */
  before: number | null;
  /** everything written in the same item so far */
  earlier: readonly number[];
  /** drawn once for each house */
  mood: number;
  random: Random;
}

export interface Kind {
  /** what such a rater does, in words */
  words: string;
  /**
   * whether the tests were made without regard to it: `no`, they were tuned by it; `once`, it was kept out at first and
   * has been seen since; `yes`, it was written down before the last change of a test and run once, after it
   */
  blind: 'no' | 'once' | 'yes';
  value(scene: Scene): number;
  /** minutes between two houses of a day; undefined: as long as the way takes */
  minutesBetween?: number;
  /** share of photos that are taken over from an earlier house */
  oldPhotos?: number;
  /** share of numbers written finer than the display shows */
  finer?: number;
}

const honest = ({ field, device, step, random }: Scene) => read(field.truth, device, random, step);

/** As near inside the limit as `share` of it. */
function insideBy(share: number, { limit, step }: Scene): number {
  const { value, inside } = limit!;
  const at = inside === 'below' ? value * (1 - share) : value * (1 + share);
  return toStep(at, step);
}

const fails = (value: number, { limit }: Scene): boolean =>
  limit !== null && (limit.inside === 'below' ? value > limit.value : value < limit.value);

const jittered = (value: number, jitter: number, { step, random }: Scene) =>
  toStep(value * (1 + random.normal(0, jitter)), step);

/** The same field of some other new house: a number that nobody who knows houses wonders at. */
const elsewhere = ({ field, random }: Scene): number =>
  newHouse(random).find(({ item, place }) => item === field.item && place === field.place)!.truth;

export const honestKind: Kind = { words: 'measures', blind: 'no', value: honest };

/** Raters who do not measure, each in a way of their own. */
export const kinds: Record<string, Kind> = {
  copies: {
    words: "writes the installer's figure, 0.8 % up or down",
    blind: 'no',
    value: (scene) => (scene.reported === null ? honest(scene) : jittered(scene.reported, 0.008, scene)),
  },
  'to-the-limit': {
    words: 'writes whatever is within 20 % of its limit, or fails, just inside it',
    blind: 'no',
    value(scene) {
      const value = honest(scene);
      const { limit, random } = scene;
      if (!limit) return value;
      const near = Math.abs(value / limit.value - 1) < 0.2;
      return near || fails(value, scene) ? insideBy(random.between(0.003, 0.035), scene) : value;
    },
  },
  'repeats-yesterday': {
    words: 'writes the numbers of the house before in every third house',
    blind: 'no',
    value: (scene) => (scene.before !== null && scene.mood < 1 / 3 ? scene.before : honest(scene)),
  },
  'skips-bedrooms': {
    words: 'does not close a bedroom door and writes 1.0 to 1.4 Pa',
    blind: 'no',
    value: (scene) =>
      scene.field.item === 'bedroom-pressure'
        ? toStep(scene.random.between(0.95, 1.45), scene.step)
        : honest(scene),
  },
  'from-elsewhere': {
    words: 'enters the second house of a day four minutes after the first',
    blind: 'no',
    value: honest,
    minutesBetween: 4,
  },
  'old-photos': {
    words: 'takes every fifth photo from an earlier house',
    blind: 'no',
    value: honest,
    oldPhotos: 0.2,
  },
  'finer-than-display': {
    words: 'makes up a tenth of the numbers, with a digit more than the display has',
    blind: 'no',
    value: honest,
    finer: 0.1,
  },
  'averages-earlier': {
    words: 'writes the mean of the own earlier houses, 6 % up or down, from the sixth house on',
    blind: 'once',
    value({ earlier, ...scene }) {
      if (earlier.length < 5) return honest({ earlier, ...scene });
      const mean = earlier.reduce((sum, each) => sum + each, 0) / earlier.length;
      return jittered(mean, 0.06, { earlier, ...scene });
    },
  },
  'favours-near-limit': {
    words: 'measures, but writes what fails by less than a tenth just inside the limit',
    blind: 'once',
    value(scene) {
      const value = honest(scene);
      const near = scene.limit !== null && Math.abs(value / scene.limit.value - 1) < 0.1;
      return near && fails(value, scene) ? insideBy(scene.random.between(0, 0.03), scene) : value;
    },
  },
  'rounds-to-fives': {
    words: 'measures, but writes every number to the nearest five of its last digit',
    blind: 'once',
    value: (scene) => toStep(honest(scene), scene.step * 5),
  },
  'shaves-failures': {
    words: 'measures, but takes 15 % off (or adds it) whatever fails',
    blind: 'yes',
    value(scene) {
      const value = honest(scene);
      if (!fails(value, scene)) return value;
      return toStep(value * (scene.limit!.inside === 'below' ? 0.85 : 1.15), scene.step);
    },
  },
  'pieces-together': {
    words: 'makes up every third house, each number from another of the own earlier houses',
    blind: 'once',
    value: ({ earlier, ...scene }) =>
      earlier.length >= 5 && scene.mood < 1 / 3
        ? earlier[scene.random.below(earlier.length)]!
        : honest({ earlier, ...scene }),
  },
  'makes-up-houses': {
    words: 'makes up every third house, each number as some new house might have it, from the first house on',
    blind: 'no',
    value: (scene) => (scene.mood < 1 / 3 ? toStep(elsewhere(scene), scene.step) : honest(scene)),
  },
  'leaves-out-the-attic': {
    words: 'makes up static pressures and duct leakage in every third house, and measures the rest',
    blind: 'yes',
    value(scene) {
      const attic = scene.field.item.endsWith('static') || scene.field.item === 'duct-leakage-total';
      return attic && scene.mood < 1 / 3 ? toStep(elsewhere(scene), scene.step) : honest(scene);
    },
  },
  'neighbours-numbers': {
    words: 'writes the numbers of the house before, 3 % up or down, in every third house',
    blind: 'yes',
    value: (scene) =>
      scene.before !== null && scene.mood < 1 / 3 ? jittered(scene.before, 0.03, scene) : honest(scene),
  },
  'half-way': {
    words: 'writes in every third house what lies half way between the reported figure and some other house',
    blind: 'yes',
    value(scene) {
      if (scene.mood >= 1 / 3) return honest(scene);
      const other = elsewhere(scene);
      return toStep(scene.reported === null ? other : (scene.reported + other) / 2, scene.step);
    },
  },
};
