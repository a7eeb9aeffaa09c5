import type { Random } from '../statistics/random.ts';

/**
 * What an instrument does to the truth. Stated accuracy is the limit of its lasting error, anywhere within it
 * (rectangular, JCGM 100, 4.3.7, from memory); a quarter of it comes anew with each reading (common practice, no
 * published source); the display rounds to its step.
 */
export interface Device {
  id: string;
  accuracy: number;
  step: number;
  gain: number;
}

export const newDevice = (id: string, accuracy: number, step: number, random: Random): Device => ({
  ...{ id, accuracy, step },
  gain: random.between(-accuracy, accuracy),
});

/** A number without the noise of binary fractions. */
export const toStep = (value: number, step: number): number =>
  Number((Math.round(value / step) * step).toFixed(6));

export function read(truth: number, device: Device, random: Random, step = device.step): number {
  return toStep(truth * (1 + device.gain) * (1 + random.normal(0, device.accuracy / 4)), step);
}

/** What one field of a house is: the truth and what it is held against, before anybody measured it. */
export interface TrueField {
  item: string;
  place: string;
  kind: 'manometer' | 'fan' | 'flow';
  truth: number;
  /** the step in which the installer writes the figure; null where he reports none */
  reportedStep: number | null;
  limit: { value: number; inside: 'below' | 'above' } | null;
  /** the limit is this many times the reported figure */
  limitOfReported: number | null;
}

const lognormal = (median: number, spread: number, random: Random) =>
  median * Math.exp(random.normal(0, Math.log(spread)));

/**
 * One new house. Medians, spreads and limits are a scenario of our own: common practice of new houses in the
 * trade, no published source. They were written down before the tests were tried on them and are not fitted to any.
 */
export function newHouse(random: Random): TrueField[] {
  const area = random.between(1200, 2800);
  const design = Math.round(30 + area / 60);
  const resistance = lognormal(1, 1.25, random);
  const field = (
    item: string,
    place: string,
    kind: TrueField['kind'],
    truth: number,
    rest: Partial<TrueField>,
  ): TrueField => ({
    item,
    place,
    kind,
    truth,
    reportedStep: null,
    limit: null,
    limitOfReported: null,
    ...rest,
  });
  const below = (value: number) => ({ limit: { value, inside: 'below' as const } });
  const above = (value: number) => ({ limit: { value, inside: 'above' as const } });
  const ofReported = { reportedStep: 0.005, limitOfReported: 1.1 };
  return [
    field('supply-static', '1', 'manometer', 0.11 * resistance, ofReported),
    field('return-static', '1', 'manometer', 0.14 * resistance * lognormal(1, 1.1, random), ofReported),
    field('duct-leakage-total', '1', 'fan', (lognormal(3.9, 1.38, random) * area) / 100, {
      ...{ reportedStep: 1 },
      ...below((6 * area) / 100),
    }),
    field('envelope-leakage', 'house', 'fan', (lognormal(2.9, 1.22, random) * area * 8.5) / 60, {
      ...below((3.8 * area * 8.5) / 60),
    }),
    ...['1', '2', '3'].map((place) =>
      field('bedroom-pressure', place, 'manometer', lognormal(1.4, 1.5, random), below(3)),
    ),
    field('whole-house-ventilation', 'unit', 'flow', design * random.normal(1.07, 0.04), {
      ...{ reportedStep: 1 },
      ...above(design),
    }),
    field('kitchen-exhaust', '1', 'flow', random.normal(113, 6), { reportedStep: 1, ...above(100) }),
    ...['1', '2'].map((place) =>
      field('bath-exhaust', place, 'flow', lognormal(60, 1.1, random), { reportedStep: 1, ...above(50) }),
    ),
  ];
}

/** Pa on the ring of a fan at a flow, Q = c · √P; the range that keeps it comfortable. */
export function fanPressure(flow: number, gain: number, random: Random): number {
  const c = [5.6, 15.2, 40.5, 105, 178, 470].find((each) => flow / each < 14) ?? 470;
  return toStep((flow / c) ** 2 * (1 + 2 * gain) * (1 + random.normal(0, 0.006)), 0.1);
}
