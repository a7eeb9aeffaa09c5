import type { Draw } from '@countercheck/contracts';
import { countBounds, horvitzThompson, type EstimateDesign, type FrameRow } from '@countercheck/sampling';
import type { Db } from '../../../kernel/database/database.ts';
import { frameRows, methodOf, purposeOf, strataOf, type DrawRow } from './parts.ts';
import { workOn } from './work.ts';

interface Member {
  houseId: string;
  position: number;
  chanceOf: bigint;
  chanceIn: bigint;
}

const stratumOf = ({ rater, builder, kind }: Pick<FrameRow, 'rater' | 'builder' | 'kind'>) =>
  `${rater} ${builder} ${kind}`;

/** Of the files that were not sure to be drawn, the sum of the squared chances over the whole frame. */
function sumOfSquares(rows: readonly FrameRow[], members: readonly Member[]): number {
  const one = members.find(({ chanceOf, chanceIn }) => chanceOf < chanceIn);
  if (!one) return 0;
  const perPoint = Number(one.chanceOf) / rows[one.position]!.weight / Number(one.chanceIn);
  return rows.reduce((sum, { weight }) => sum + (weight * perPoint < 1 ? (weight * perPoint) ** 2 : 0), 0);
}

function designOf(draw: DrawRow, rows: readonly FrameRow[], members: readonly Member[]): EstimateDesign {
  const method = methodOf(draw);
  if (method === 'stratified')
    return {
      design: method,
      strata: Object.fromEntries((strataOf(draw.result!) ?? []).map((each) => [stratumOf(each), each])),
    };
  if (method === 'risk-weighted')
    return { design: method, population: rows.length, sumOfSquares: sumOfSquares(rows, members) };
  return { design: method, population: rows.length };
}

/** How many files of the population have a finding, as far as the draw can tell. */
export async function estimateOf(db: Db, draw: DrawRow): Promise<Draw['estimate']> {
  if (!draw.result || !draw.frame || !draw.orders) return null;
  const members = await db.drawMember.findMany({ where: { drawId: draw.id }, orderBy: { position: 'asc' } });
  const work = await workOn(
    db,
    purposeOf(draw),
    members.map(({ houseId }) => houseId),
  );
  const values = members.map(({ houseId }) => work.get(houseId)?.value ?? null);
  const looked = values.filter((value) => value !== null).length;
  const found = values.filter((value) => value === 1).length;
  const open = { looked, found, total: null, low: null, high: null };
  if (looked < members.length)
    return {
      ...open,
      basis: 'Told when all of them are done: those done first need not be like the others',
    };
  if (draw.method === 'simple') {
    const bounds = countBounds(draw.frame.count, looked, found, 0.95);
    const total = (found * draw.frame.count) / looked;
    return { ...open, total, ...bounds, basis: 'Exact bounds for a finite population, 95 %' };
  }
  const rows = await frameRows(db, draw.id);
  const sample = members.map((member, at) => ({
    value: values[at]!,
    chance: Number(member.chanceOf) / Number(member.chanceIn),
    stratum: stratumOf(rows[member.position]!),
  }));
  const { total, low, high, basis } = horvitzThompson(sample, designOf(draw, rows, members));
  // Where nothing or everything was found, the variance says nothing.
  const silent = found === 0 || found === looked;
  return {
    ...open,
    total: Math.min(total, draw.frame.count),
    low: low === null || silent ? null : Math.max(found, low),
    high: high === null || silent ? null : Math.min(draw.frame.count - looked + found, high),
    basis: `Horvitz–Thompson, 95 % by the normal distribution; variance: ${basis}${
      silent ? '. Nothing differed between the files looked at, so that no interval can be given' : ''
    }`,
  };
}
