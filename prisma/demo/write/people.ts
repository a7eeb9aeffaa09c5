import type { Prisma } from '../../generated/client.ts';
import { builders, company, installers, raters } from '../cast.ts';
import type { Calendar } from '../calendar.ts';
import type { KitItem } from '../kits.ts';
import { plans } from '../plans.ts';
import { cottages } from '../year/plans.ts';
import type { Random } from '../random.ts';
import { demoSignIns } from '../sign-ins.ts';

type Db = Prisma.TransactionClient;

/** Ids of what the houses refer to, in the order of the cast. */
export interface Cast {
  builders: {
    id: string;
    communityId: string;
    planIds: Map<string, string>;
    userId: string;
    userName: string;
  }[];
  raters: { id: string; name: string }[];
  installers: { id: string; name: string }[];
  quality: { id: string; name: string };
  office: { id: string; name: string };
}

export async function writePeople(
  db: Db,
  passwordHash: string,
  { kits, earlier }: { kits: KitItem[]; earlier: KitItem[] },
  calendar: Calendar,
  random: Random,
): Promise<Cast> {
  await db.company.updateMany({ data: { name: company.name, timezone: company.timezone } });
  const person = (
    email: string,
    name: string,
    role: 'office' | 'rater' | 'quality' | 'builder' | 'administrator',
    builderId: string | null = null,
  ) => ({
    id: random.uuid(),
    email,
    name,
    role,
    builderId,
    passwordHash,
    createdAt: calendar.at(-400, 9),
  });
  const signIn = (role: string) => demoSignIns.find((each) => each.role === role) ?? demoSignIns[0]!;
  const office = person(signIn('Office').email, signIn('Office').name, 'office');
  const quality = person(signIn('Quality manager').email, signIn('Quality manager').name, 'quality');
  const administrator = person(signIn('Administrator').email, signIn('Administrator').name, 'administrator');
  const raterRows = raters.map(({ email, name }) => person(email, name, 'rater'));
  await db.user.createMany({ data: [office, quality, administrator, ...raterRows] });

  const cast: Cast = { builders: [], raters: raterRows, installers: [], quality, office };
  for (const [i, builder] of builders.entries()) {
    const id = random.uuid();
    const communityId = random.uuid();
    await db.builder.create({
      data: {
        id,
        name: builder.name,
        phone: builder.phone,
        address: builder.address,
        createdAt: calendar.at(-390 + i, 10),
      },
    });
    await db.builderContact.createMany({
      data: builder.contacts.map((contact) => ({ ...contact, builderId: id })),
    });
    const { name, jurisdiction, climateZone, latitude, longitude } = builder.community;
    await db.community.create({
      data: { id: communityId, builderId: id, name, jurisdiction, climateZone, latitude, longitude },
    });
    const user = person(builder.user.email, builder.user.name, 'builder', id);
    await db.user.create({ data: user });
    const planIds = new Map<string, string>();
    for (const plan of [...(plans[i] ?? []), cottages[i]!]) {
      const row = await db.plan.create({ data: { ...plan, builderId: id } });
      planIds.set(plan.name, row.id);
    }
    cast.builders.push({ id, communityId, planIds, userId: user.id, userName: user.name });
  }
  const installerRows = installers.map((installer) => ({ id: random.uuid(), ...installer }));
  await db.installer.createMany({ data: installerRows });
  cast.installers = installerRows;

  await db.instrument.createMany({
    data: kits.map(({ id, label, serial, facts }) => ({
      id,
      label,
      serial,
      kind: facts.kind,
      accuracyPercent: facts.accuracyPercent,
      accuracyAbsolute: facts.accuracyAbsolute,
      resolution: facts.resolution,
    })),
  });
  await db.instrumentCalibration.createMany({
    data: [...earlier, ...kits].map((item) => ({
      id: item.calibrationId,
      instrumentId: item.id,
      calibratedOn: new Date(item.calibratedOn),
      dueOn: new Date(item.dueOn),
      certificate: `C-${item.serial.slice(-4)}-${item.calibratedOn.slice(2, 4)}`,
      ranges: item.facts.ranges as unknown as Prisma.InputJsonValue,
    })),
  });
  return cast;
}
