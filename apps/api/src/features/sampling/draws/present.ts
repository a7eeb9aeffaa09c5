import type { Draw, DrawSummary } from '@countercheck/contracts';
import type { Db } from '../../../kernel/database/database.ts';
import { isoDate } from '../../assessment/index.ts';
import { namesOf } from '../names.ts';
import { estimateOf } from './estimate.ts';
import { filterOf, methodOf, purposeOf, sizeOf, strataOf, weighingOf, type DrawRow } from './parts.ts';

function stepOf({ frame, result, orders }: DrawRow): Draw['step'] {
  if (orders) return 'ordered';
  if (result) return 'drawn';
  return frame ? 'frozen' : 'published';
}

export function presentDrawSummary(row: DrawRow): DrawSummary {
  const { id, title, commitment, committedBy, committedAt, frame, result } = row;
  return {
    ...{ id, title, commitment, committedBy, committedAt: committedAt.toISOString() },
    purpose: purposeOf(row),
    method: methodOf(row),
    size: sizeOf(row),
    step: stepOf(row),
    population: frame?.count ?? null,
    drawn: result?.size ?? null,
  };
}

export async function presentDraw(db: Db, row: DrawRow): Promise<Draw> {
  const { algorithm, frame, result, orders } = row;
  const filter = frame && filterOf(frame);
  const strata = result && strataOf(result);
  const names = await namesOf(db, {
    users: [filter?.raterId, ...(strata ?? []).map(({ rater }) => rater)],
    builders: [filter?.builderId, ...(strata ?? []).map(({ builder }) => builder)],
  });
  return {
    ...presentDrawSummary(row),
    ...{ algorithm, weighing: weighingOf(row) },
    frame: frame && {
      ...{ filter: filter!, count: frame.count, hash: frame.hash, frozenBy: frame.frozenBy },
      rater: names.user(filter!.raterId),
      builder: names.builder(filter!.builderId),
      frozenAt: frame.frozenAt.toISOString(),
    },
    result: result && {
      ...{ seed: result.seed, witness: result.witness, recordHash: result.recordHash },
      ...{ drawnAt: result.drawnAt.toISOString(), drawnBy: result.drawnBy },
      strata:
        strata?.map(({ rater, builder, kind, population, sample }) => ({
          rater: names.user(rater) ?? rater,
          builder: names.builder(builder) ?? builder,
          kind: kind as NonNullable<NonNullable<Draw['result']>['strata']>[number]['kind'],
          ...{ population, sample },
        })) ?? null,
    },
    orders: orders && {
      ...{ dueOn: isoDate(orders.dueOn), ordered: orders.ordered, already: orders.already },
      ...{ orderedAt: orders.orderedAt.toISOString(), orderedBy: orders.orderedBy },
    },
    estimate: await estimateOf(db, row),
  };
}
