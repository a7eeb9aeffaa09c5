import type { Draw, PopulationFilter } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import type { DrawMethod, DrawSize, FrameRow, Stratum } from '@countercheck/sampling';
import type { Db } from '../../../kernel/database/database.ts';
import { found } from '../../../kernel/problems/app-error.ts';

// The lines of a frame can be many megabytes; they are read only by what needs them.
export const drawParts = {
  frame: { omit: { lines: true } },
  result: true,
  orders: true,
} satisfies Prisma.DrawInclude;
export type DrawRow = Prisma.DrawGetPayload<{ include: typeof drawParts }>;

export const findDraw = async (db: Db, id: string): Promise<DrawRow> =>
  found(await db.draw.findUnique({ where: { id }, include: drawParts }), 'draw');

export const purposeOf = ({ purpose }: Pick<DrawRow, 'purpose'>): Draw['purpose'] =>
  purpose === 'file_review' ? 'file-review' : 'field-retest';

export const methodOf = ({ method }: Pick<DrawRow, 'method'>) => method as DrawMethod;
export const sizeOf = ({ size }: Pick<DrawRow, 'size'>) => size as unknown as DrawSize;
export const weighingOf = ({ weighing }: Pick<DrawRow, 'weighing'>) =>
  weighing as unknown as Draw['weighing'];
export const filterOf = ({ filter }: { filter: unknown }) => filter as PopulationFilter;
export const strataOf = ({ strata }: { strata: unknown }) => strata as Stratum[] | null;

/** The rows of a frozen frame, as they were hashed. */
export async function frameRows(db: Db, drawId: string): Promise<FrameRow[]> {
  const { lines } = await db.drawFrame.findUniqueOrThrow({ where: { drawId }, select: { lines: true } });
  return lines
    .trimEnd()
    .split('\n')
    .map((line) => {
      const [id, rater, builder, kind, date, weight] = JSON.parse(line) as [
        ...[string, string, string, string, string, number],
      ];
      return { id, rater, builder, kind, date, weight };
    });
}
