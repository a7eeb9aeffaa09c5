import type { ApplianceKind, Fuel, HouseFile, ReportedFigures, Venting } from '@countercheck/assessment';
import type { RawReading, TestKey } from '@countercheck/measurement';
import type { Prisma } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { companyOptions, dayAt } from './calendar.ts';
import { decisionRuleOf } from './decision-rule.ts';
import { instrumentFacts } from './instruments.ts';

const byPosition = { orderBy: [{ position: 'asc' as const }, { id: 'asc' as const }] };
const subjectParts = {
  systems: byPosition,
  rooms: byPosition,
  appliances: byPosition,
} satisfies Prisma.HouseInclude;
const fileParts = {
  ...subjectParts,
  submissions: {
    orderBy: { revision: 'desc' as const },
    select: { revision: true, figures: true, frozenAt: true },
  },
  readings: {
    // A second measurement is compared with the first and never judged: it is no part of the house's file.
    where: { supersededBy: null, visit: { kind: { not: 'quality' as const } } },
    orderBy: [{ takenAt: 'asc' as const }, { receivedAt: 'asc' as const }, { id: 'asc' as const }],
    include: { instrument: { include: { calibrations: true } } },
  },
} satisfies Prisma.HouseInclude;

type HouseWithParts = Prisma.HouseGetPayload<{ include: typeof subjectParts }>;
type HouseWithFile = Prisma.HouseGetPayload<{ include: typeof fileParts }>;
type HouseSubjects = Pick<HouseFile, 'house' | 'systems' | 'rooms' | 'appliances'>;

function subjectsFrom(row: HouseWithParts): HouseSubjects {
  return {
    house: {
      conditionedFloorAreaFt2: row.conditionedFloorArea,
      conditionedVolumeFt3: row.conditionedVolume,
      bedrooms: row.bedrooms,
      storeys: row.storeys,
      climateZone: row.climateZone,
      foundation: row.foundation,
      ventilationKind: row.ventilationKind,
      ventilatorDucted: row.ventilatorDucted,
      designedVentilationCfm: row.designedVentilation,
    },
    systems: row.systems.map(({ id, label, hasDucts, ductsInside, designAirflow, airHandlerAtRough }) => ({
      ...{ id, label, hasDucts, ductsInside, airHandlerAtRough },
      designAirflowCfm: designAirflow,
    })),
    rooms: row.rooms.map(({ id, label, kind, supplyFlow, volume }) => ({
      ...{ id, label, kind },
      supplyFlowCfm: supplyFlow,
      volumeFt3: volume,
    })),
    appliances: row.appliances.map(({ id, label, kind, fuel, venting }) => ({
      ...{ id, label },
      kind: kind as ApplianceKind,
      fuel: fuel as Fuel,
      venting: venting as Venting,
    })),
  };
}

/**
 * Frozen figures stay in force whatever was signed after them, until that is frozen too by a reinspection; then
 * each reading keeps what was in force when it was taken.
 */
function figuresInForce({ submissions }: HouseWithFile) {
  const figuresOf = (row: { figures: unknown } | undefined) => (row?.figures ?? {}) as ReportedFigures;
  const [inForce, ...earlier] = submissions.filter(({ frozenAt }) => frozenAt !== null);
  if (inForce === undefined || earlier.length === 0)
    return { reported: figuresOf(inForce ?? submissions[0]) };
  return {
    reported: figuresOf(inForce),
    reportedRevision: inForce.revision,
    earlierFigures: earlier.reverse().map((row) => ({ revision: row.revision, figures: figuresOf(row) })),
  };
}

function readingsFrom(
  { readings }: Pick<HouseWithFile, 'readings'>,
  timezone: string,
): HouseFile['readings'] {
  return readings.map((reading) => {
    const takenOn = dayAt(reading.takenAt, timezone);
    return {
      id: reading.id,
      test: reading.test as TestKey,
      subjectId: reading.subjectId,
      raw: reading.raw as unknown as RawReading,
      instrument: reading.instrument && instrumentFacts(reading.instrument, takenOn),
      takenOn,
      takenAt: reading.takenAt.toISOString(),
      visitId: reading.visitId,
      ...(reading.figuresRevision === null ? {} : { figuresRevision: reading.figuresRevision }),
    };
  });
}

function fileFrom(
  row: HouseWithFile,
  { timezone, guardBandFactor }: Awaited<ReturnType<typeof companyOptions>>,
): HouseFile {
  return {
    ...subjectsFrom(row),
    ...figuresInForce(row),
    hidden: [],
    decisionRule: decisionRuleOf(guardBandFactor),
    readings: readingsFrom(row, timezone),
  };
}

/** The house as a second measurement sees it: its parts, and nothing but what was read on that one visit. */
export async function loadSecondFile(db: Db, houseId: string, visitId: string): Promise<HouseFile> {
  const include = {
    ...subjectParts,
    readings: { ...fileParts.readings, where: { supersededBy: null, visitId } },
  } satisfies Prisma.HouseInclude;
  const row = found(await db.house.findUnique({ where: { id: houseId }, include }), 'house');
  const { timezone, guardBandFactor } = await companyOptions(db);
  return {
    ...subjectsFrom(row),
    reported: {},
    hidden: [],
    decisionRule: decisionRuleOf(guardBandFactor),
    readings: readingsFrom(row, timezone),
  };
}

/**
 * Reads one house as the plain data that the assessment package works on. Nothing in it was computed: raw
 * readings that no newer one replaced, each with its instrument as it was on the day.
 */
export async function loadHouseFile(db: Db, houseId: string): Promise<HouseFile> {
  const row = found(await db.house.findUnique({ where: { id: houseId }, include: fileParts }), 'house');
  return fileFrom(row, await companyOptions(db));
}

/** As `loadHouseFile`, for many houses in few statements, by the house's id. */
export async function loadHouseFiles(db: Db, houseIds: string[]): Promise<Map<string, HouseFile>> {
  const rows = await db.house.findMany({ where: { id: { in: houseIds } }, include: fileParts });
  const options = await companyOptions(db);
  return new Map(rows.map((row) => [row.id, fileFrom(row, options)]));
}

/**
 * Readings that stood at the end of their visit and were replaced on a later one, oldest first: what the house
 * was like before it was corrected. A correction within one visit was a slip of the pen, and is none.
 */
export async function loadReplaced(db: Db, houseId: string): Promise<HouseFile['readings']> {
  const { orderBy, include } = fileParts.readings;
  const rows = await db.reading.findMany({
    where: { houseId, supersededBy: { isNot: null }, visit: { kind: { not: 'quality' } } },
    orderBy,
    include: { ...include, supersededBy: { select: { visitId: true } } },
  });
  const readings = rows.filter(({ visitId, supersededBy }) => supersededBy?.visitId !== visitId);
  return readings.length === 0 ? [] : readingsFrom({ readings }, (await companyOptions(db)).timezone);
}
