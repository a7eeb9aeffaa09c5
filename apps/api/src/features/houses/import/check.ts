import { climateZoneSchema, housePartsSchema, type HouseParts } from '@countercheck/contracts';
import type { Community, Plan, Prisma } from '@countercheck/prisma';
import type { Db } from '../../../kernel/database/database.ts';
import { readCells, type Numbers } from './read-cells.ts';
import { readCsv, type Cells, type CsvRow, type RowProblem } from './read-csv.ts';

export interface HouseToAdd {
  facts: Omit<Prisma.HouseCreateManyInput, 'ruleSetId'>;
  parts: HouseParts;
}
export interface CheckedRow extends CsvRow {
  house: HouseToAdd | null;
}
export interface CheckedFile {
  rows: CheckedRow[];
  problems: string[];
}

const fold = (name: string) => name.trim().toLowerCase();

/** The plan's figures, with what the row says of its own in their place. */
function houseOf(cells: Cells, numbers: Numbers, community: Community, plan: Plan, zone: string): HouseToAdd {
  const { storeys, foundation, ventilationKind, ventilatorDucted } = plan;
  return {
    facts: {
      builderId: community.builderId,
      communityId: community.id,
      planId: plan.id,
      lot: cells.lot ?? '',
      address: cells.address ?? '',
      climateZone: zone,
      conditionedFloorArea: numbers.floor_area_ft2 ?? plan.conditionedFloorArea,
      conditionedVolume: numbers.volume_ft3 ?? plan.conditionedVolume,
      bedrooms: numbers.bedrooms ?? plan.bedrooms,
      designedVentilation: numbers.designed_ventilation_cfm ?? plan.designedVentilation,
      storeys,
      foundation,
      ventilationKind,
      ventilatorDucted,
      latitude: community.latitude,
      longitude: community.longitude,
      note: cells.note || null,
    },
    parts: housePartsSchema.parse(plan.parts),
  };
}

async function lotsTaken(db: Db, communities: Community[], rows: CsvRow[]): Promise<Set<string>> {
  const taken = await db.house.findMany({
    where: {
      communityId: { in: communities.map(({ id }) => id) },
      lot: { in: [...new Set(rows.flatMap(({ cells }) => cells.lot || []))] },
    },
    select: { communityId: true, lot: true },
  });
  return new Set(taken.map(({ communityId, lot }) => `${communityId}/${lot}`));
}

/** Checks a file of houses of one builder against what is registered; nothing is stored. */
export async function checkImport(db: Db, builderId: string, csv: string): Promise<CheckedFile> {
  const { rows, problems } = readCsv(csv);
  const communities = await db.community.findMany({ where: { builderId } });
  const plans = await db.plan.findMany({ where: { builderId } });
  const communityByName = new Map(communities.map((each) => [fold(each.name), each]));
  const planByName = new Map(plans.map((each) => [fold(each.name), each]));
  const taken = await lotsTaken(db, communities, rows);
  const seen = new Map<string, number>();

  const checked = rows.map((row): CheckedRow => {
    const { cells, line } = row;
    const own = readCells(cells);
    const found: RowProblem[] = [...row.problems, ...own.problems];
    const problem = (column: string, message: string) => {
      if (!found.some((each) => each.column === column)) found.push({ column, message });
    };
    const community = communityByName.get(fold(cells.community ?? ''));
    if (!community) problem('community', `The builder has no community “${cells.community ?? ''}”.`);
    const plan = planByName.get(fold(cells.plan ?? ''));
    if (!plan) problem('plan', `The builder has no plan “${cells.plan ?? ''}”.`);
    else if (!plan.active) problem('plan', `The plan “${plan.name}” is no longer built.`);
    const zone = cells.climate_zone?.toUpperCase() || community?.climateZone;
    if (zone !== undefined && !climateZoneSchema.safeParse(zone).success)
      problem('climate_zone', `“${cells.climate_zone ?? zone}” is not a climate zone (for example 4A).`);
    if (community && cells.lot) {
      const place = `${community.id}/${cells.lot}`;
      const before = seen.get(place);
      if (before !== undefined)
        problem('lot', `Lot ${cells.lot} of ${community.name} stands in line ${before} already.`);
      else seen.set(place, line);
      if (taken.has(place)) problem('lot', `Lot ${cells.lot} of ${community.name} is registered already.`);
    }
    const good = community && plan && zone !== undefined && found.length === 0;
    return {
      ...row,
      problems: found,
      house: good ? houseOf(cells, own.numbers, community, plan, zone) : null,
    };
  });
  return { rows: checked, problems };
}
