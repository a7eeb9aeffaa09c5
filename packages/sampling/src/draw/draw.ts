import { drawKey } from './commitment.ts';
import type { Frame } from './frame.ts';
import { sampleSize, type DrawMethod, type DrawSize } from './method.ts';
import { riskWeightedSample } from './risk-weighted.ts';
import { simpleSample, systematicSample, type Chosen } from './select.ts';
import { stratifiedSample, type Stratum } from './stratified.ts';
import { wordStream } from './words.ts';

/** What decides a draw, all of it. */
export interface DrawInput {
  frame: Frame;
  seed: string;
  /** what a witness added after the population was frozen; may be empty */
  witness: string;
  method: DrawMethod;
  size: DrawSize;
}

/** One file drawn: its place in the frame counted from 0, and its exact chance as a fraction. */
export interface Drawn {
  id: string;
  position: number;
  chance: readonly [number, number];
}

/** The sample in the order of the frame; strata where the draw was stratified. */
export interface DrawResult {
  sample: Drawn[];
  strata: Stratum[] | null;
}

function weightsOf(rows: Frame['rows']): Uint32Array {
  const weights = new Uint32Array(rows.length);
  for (let at = 0; at < weights.length; at++) weights[at] = rows[at]!.weight;
  return weights;
}

/**
 * Draws. The same input gives the same sample on every machine (algorithm `countercheck-draw/1`, specified in
 * docs/sampling.md). Throws RangeError for a seed that is none and for weights too large for the size.
 */
export function draw({ frame, seed, witness, method, size }: DrawInput): DrawResult {
  const { rows, hash } = frame;
  const words = wordStream(drawKey(seed, hash, witness));
  const wanted = sampleSize(size, rows.length);
  const named = (chosen: Chosen[], strata: Stratum[] | null = null): DrawResult => ({
    sample: chosen.map(({ position, chance }) => ({ id: rows[position]!.id, position, chance })),
    strata,
  });
  switch (method) {
    case 'simple':
      return named(simpleSample(rows.length, wanted, words));
    case 'systematic':
      return named(systematicSample(rows.length, wanted, words));
    case 'risk-weighted':
      return named(riskWeightedSample(weightsOf(rows), wanted, words));
    case 'stratified': {
      const { chosen, strata } = stratifiedSample(rows, wanted, words);
      return named(chosen, strata);
    }
  }
}
