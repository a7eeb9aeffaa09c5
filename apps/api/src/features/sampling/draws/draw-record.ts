import type { DrawRecord, FrameRow } from '@countercheck/sampling';
import { algorithm, type Drawn, type Stratum } from '@countercheck/sampling';
import { AppError } from '../../../kernel/problems/app-error.ts';
import { filterOf, methodOf, purposeOf, sizeOf, weighingOf, type DrawRow } from './parts.ts';

interface Outcome {
  seed: string;
  witness: string;
  drawnAt: Date;
  strata: Stratum[] | null;
  sample: readonly Drawn[];
}

/** The record that is handed out, without its own hash. The same rows give the same record each time. */
export function drawRecord(
  draw: DrawRow,
  rows: readonly FrameRow[],
  { seed, witness, drawnAt, strata, sample }: Outcome,
): Omit<DrawRecord, 'recordHash'> {
  const { frame } = draw;
  if (!frame) throw new AppError('draw-step', 'Its population is not frozen yet.');
  if (draw.algorithm !== algorithm)
    throw new AppError(
      'draw-step',
      `It was published for ${draw.algorithm}; this service draws by ${algorithm}.`,
    );
  return {
    ...{ format: 'countercheck draw', formatVersion: 1, algorithm, id: draw.id, title: draw.title },
    purpose: purposeOf(draw),
    population: { ...filterOf(frame) },
    method: methodOf(draw),
    size: sizeOf(draw),
    weighing: weighingOf(draw),
    commitment: draw.commitment,
    committedAt: draw.committedAt.toISOString(),
    frozenAt: frame.frozenAt.toISOString(),
    drawnAt: drawnAt.toISOString(),
    ...{ seed, witness },
    frame: {
      ...{ count: frame.count, hash: frame.hash },
      rows: rows.map((r) => [r.id, r.rater, r.builder, r.kind, r.date, r.weight]),
    },
    strata,
    sample: sample.map(({ id, position, chance }) => ({ id, position, chance: [...chance] })),
  };
}
