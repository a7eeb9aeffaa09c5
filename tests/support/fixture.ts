import { hash } from '@node-rs/argon2';
import type { Role } from '@countercheck/contracts';
import type { Prisma } from '@countercheck/prisma';
import { system } from '../../apps/api/src/kernel/actor.ts';
import { readRuleSets, ruleSetHash } from '../../apps/api/src/features/rule-sets/index.ts';
import type { Database, Db } from '../../apps/api/src/kernel/database/database.ts';

// Read from the files, since the benches run without the test runner's way to them.
const commonPractice = (await readRuleSets()).find(({ key }) => key === 'common-practice')!;

export const password = 'seven lanterns over a quiet weir';
// As cheap as the library allows: what is tested is not how slow a hash is.
const passwordHash = hash(password, { memoryCost: 1024, timeCost: 1 });

export interface Person {
  id: string;
  name: string;
  email: string;
  role: Role;
}

const people = {
  office: ['Office Desk', 'office'],
  rater: ['First Rater', 'rater'],
  otherRater: ['Second Rater', 'rater'],
  quality: ['Quality Desk', 'quality'],
  otherQuality: ['Second Quality Desk', 'quality'],
  administrator: ['Keeper of Accounts', 'administrator'],
  builder: ['Site Office', 'builder'],
  otherBuilder: ['Other Site Office', 'builder'],
} as const satisfies Record<string, readonly [string, Role]>;
export type Who = keyof typeof people;

export const figures = {
  conditionedFloorArea: 1850,
  conditionedVolume: 16650,
  bedrooms: 2,
  storeys: 1,
  foundation: 'slab',
  ventilationKind: 'exhaust',
  ventilatorDucted: false,
  designedVentilation: 65,
} as const;

const parts = {
  systems: [
    {
      label: 'System 1',
      kind: 'heat pump',
      hasDucts: true,
      ductsInside: false,
      designAirflow: 1000,
    },
  ],
  rooms: [
    { label: 'Bedroom 1', kind: 'bedroom', supplyFlow: 110, volume: 1350 },
    { label: 'Bedroom 2', kind: 'bedroom', supplyFlow: 80, volume: 1100 },
    { label: 'Bath 1', kind: 'bath', supplyFlow: null, volume: null },
    { label: 'Kitchen', kind: 'kitchen', supplyFlow: null, volume: null },
  ],
  appliances: [
    { label: 'Range', kind: 'range', fuel: 'natural-gas', venting: 'unvented', location: 'kitchen' },
    {
      label: 'Water heater',
      kind: 'water-heater',
      fuel: 'natural-gas',
      venting: 'atmospheric',
      location: 'garage closet',
    },
  ],
} as const;

/** The lists are frozen by their type above; this is how the database and the contracts take them. */
export const partsBody = () => JSON.parse(JSON.stringify(parts)) as Prisma.JsonObject;

async function addBuilder(db: Db, name: string) {
  const builder = await db.builder.create({ data: { name } });
  const builderId = builder.id;
  await db.builderContact.create({
    data: { builderId, name: 'Superintendent', email: `site@${name.split(' ')[0]!.toLowerCase()}.example` },
  });
  const community = await db.community.create({
    data: { builderId, name: `${name} Field`, climateZone: '4A', jurisdiction: 'Upper County' },
  });
  const plan = await db.plan.create({
    data: { builderId, name: 'Plan A', ...figures, parts: partsBody() },
  });
  return { id: builderId, name, communityId: community.id, communityName: community.name, planId: plan.id };
}

/** A house of the builder's only plan, with all its parts; waiting for the installer unless told otherwise. */
export async function addHouse(
  db: Db,
  ruleSetId: string,
  builder: { id: string; communityId: string; planId: string },
  own: Partial<Prisma.HouseUncheckedCreateInput> & { lot: string },
) {
  const placed = <T>(list: readonly T[]) => list.map((part, position) => ({ ...part, position }));
  return db.house.create({
    data: {
      builderId: builder.id,
      communityId: builder.communityId,
      planId: builder.planId,
      address: `${own.lot} Weir Lane`,
      climateZone: '4A',
      ruleSetId,
      ...figures,
      systems: { create: placed(parts.systems) },
      rooms: { create: placed(parts.rooms) },
      appliances: { create: placed(parts.appliances) },
      ...own,
    },
    include: { systems: true, rooms: true, appliances: true },
  });
}

async function addInstruments(db: Db) {
  const add = (kind: string, label: string, serial: string, ranges: Prisma.InputJsonValue = []) =>
    db.instrument.create({
      data: {
        kind,
        label,
        serial,
        accuracyPercent: 3,
        accuracyAbsolute: 1,
        resolution: 0.1,
        calibrations: {
          create: { calibratedOn: new Date('2026-02-01'), dueOn: new Date('2099-02-01'), ranges },
        },
      },
      include: { calibrations: true },
    });
  return {
    manometer: await add('manometer', 'Manometer 1', 'M-001'),
    exhaustFlowMeter: await add('exhaust-flow-meter', 'Exhaust meter 1', 'E-001'),
    ductTester: await add('duct-tester', 'Duct tester 1', 'D-001', [
      { range: 'Ring 2', c: 23.9, n: 0.5, minPa: 10, maxPa: 400 },
    ]),
    combustionAnalyzer: await add('combustion-analyzer', 'Analyzer 1', 'C-001'),
    ambientCoMonitor: await add('ambient-co-monitor', 'Monitor 1', 'A-001'),
  };
}

/** A company small enough to keep in mind: two builders with a house each, and somebody of every role. */
export async function smallCompany(database: Database) {
  const hashed = await passwordHash;
  return database.as(system, async (db) => {
    const { key, version, title, effective } = commonPractice;
    const ruleSet = await db.ruleSet.create({
      data: {
        key,
        version,
        title,
        effectiveOn: new Date(effective),
        body: commonPractice as unknown as Prisma.InputJsonObject,
        hash: ruleSetHash(commonPractice),
      },
    });
    await db.company.create({ data: { name: 'Weir Rating', defaultRuleSetId: ruleSet.id } });
    const builder = await addBuilder(db, 'Quillbrook Homes');
    const otherBuilder = await addBuilder(db, 'Tarnfield Homes');
    const users = {} as Record<Who, Person>;
    for (const [who, [name, role]] of Object.entries(people) as [Who, (typeof people)[Who]][]) {
      const email = `${who.toLowerCase()}@weir.example`;
      const builderId = who === 'builder' ? builder.id : who === 'otherBuilder' ? otherBuilder.id : null;
      const { id } = await db.user.create({ data: { email, name, role, builderId, passwordHash: hashed } });
      users[who] = { id, name, email, role };
    }
    const installer = await db.installer.create({
      data: { name: 'Fitter One', companyName: 'Reed Air', email: 'fitter@reed.example' },
    });
    return {
      ruleSet: { id: ruleSet.id, key, version },
      users,
      builder,
      otherBuilder,
      house: await addHouse(db, ruleSet.id, builder, { lot: '11' }),
      otherHouse: await addHouse(db, ruleSet.id, otherBuilder, { lot: '21' }),
      installer,
      instruments: await addInstruments(db),
    };
  });
}
export type Fixture = Awaited<ReturnType<typeof smallCompany>>;
