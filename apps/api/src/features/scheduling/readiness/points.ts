import type { Readiness } from '@countercheck/contracts';
import type { ReadinessKind, ReadinessPoint, VisitKind } from '@countercheck/prisma';

/** What has to be so when the rater comes, by the kind of visit; common practice, no published source. */
export const pointsAsked: Record<VisitKind, readonly ReadinessKind[]> = {
  rough: ['power', 'air_handler'],
  final: ['power', 'air_handler', 'registers', 'appliances'],
  reinspection: ['power', 'air_handler', 'corrections'],
  quality: ['power', 'air_handler'],
};

/** The list of one request: every point that is asked, answered or not. */
export function readinessOf(
  kind: VisitKind,
  answers: readonly ReadinessPoint[],
  figuresSignedAt: Date | null,
): Readiness {
  const points = pointsAsked[kind].map((each) => {
    const answer = answers.find((one) => one.kind === each);
    return {
      kind: each,
      ready: answer?.ready ?? null,
      note: answer?.note ?? null,
      byName: answer?.byName ?? null,
      at: answer?.at.toISOString() ?? null,
    };
  });
  return {
    points,
    figuresSignedAt: figuresSignedAt?.toISOString() ?? null,
    ready: figuresSignedAt !== null && points.every(({ ready }) => ready === true),
  };
}
