import { createHash } from 'node:crypto';
import type { Prisma } from '../../generated/client.ts';
import { builders } from '../cast.ts';
import type { Random } from '../random.ts';
import type { Story } from '../stories.ts';
import type { Cast } from './people.ts';

type Db = Prisma.TransactionClient;

/** Houses with their parts, the installers' links and their signed figures. */
export async function writeHouses(
  db: Db,
  stories: Story[],
  cast: Cast,
  ruleSetId: string,
  random: Random,
): Promise<void> {
  await db.house.createMany({
    data: stories.map((story) => {
      const { plan, id, climateZone } = story.house;
      const { parts: _parts, name, ...figures } = plan;
      const owner = cast.builders[story.builder]!;
      const { latitude, longitude } = builders[story.builder]!.community;
      return {
        ...figures,
        id,
        climateZone,
        builderId: owner.id,
        communityId: owner.communityId,
        planId: owner.planIds.get(name) ?? null,
        address: story.address,
        lot: story.lot,
        ruleSetId,
        // The review seals it at the end of the loading, as the quality manager would.
        stage: story.stage === 'released' ? 'in_review' : story.stage,
        latitude: latitude + random.normal(0, 0.004),
        longitude: longitude + random.normal(0, 0.005),
        createdAt: story.registeredAt,
        updatedAt: lastDeed(story),
      };
    }),
  });
  await db.houseSystem.createMany({
    data: stories.flatMap(({ house }) =>
      house.systems.map((part, position) => ({ ...part, position, houseId: house.id })),
    ),
  });
  await db.room.createMany({
    data: stories.flatMap(({ house }) =>
      house.rooms.map((part, position) => ({ ...part, position, houseId: house.id })),
    ),
  });
  await db.appliance.createMany({
    data: stories.flatMap(({ house }) =>
      house.appliances.map((part, position) => ({ ...part, position, houseId: house.id })),
    ),
  });

  const links = stories.map((story) => ({
    id: random.uuid(),
    houseId: story.house.id,
    installerId: cast.installers[story.installer]!.id,
    createdAt: story.linkSentAt,
    // Nobody holds these tokens: the demo's installers get new links from the office.
    tokenHash: createHash('sha256').update(random.uuid()).digest('hex'),
    expiresAt: new Date(story.linkSentAt.getTime() + 30 * 86_400_000),
    lastUsedAt: story.figures?.signedAt ?? null,
  }));
  await db.installerLink.createMany({ data: links });
  await db.installerSubmission.createMany({
    data: stories.flatMap((story, i) => {
      if (!story.figures) return [];
      const installer = cast.installers[story.installer]!;
      const read = story.visits.find(({ readings }) => readings.length > 0);
      return [
        {
          houseId: story.house.id,
          installerId: installer.id,
          linkId: links[i]!.id,
          revision: 1,
          figures: story.figures.bySubject,
          signedName: installer.name,
          signedAt: story.figures.signedAt,
          frozenAt: read ? (read.readings[0]?.takenAt ?? null) : null,
        },
      ];
    }),
  });
}

function lastDeed(story: Story): Date {
  const visit = story.visits.filter(({ state }) => state !== 'booked').at(-1);
  const deeds = [
    story.registeredAt,
    story.linkSentAt,
    story.figures?.signedAt,
    visit?.submittedAt ?? visit?.startsAt,
    story.askedAt,
    story.returnedAt,
  ];
  return deeds.reduce<Date>((last, deed) => (deed && deed > last ? deed : last), story.registeredAt);
}
