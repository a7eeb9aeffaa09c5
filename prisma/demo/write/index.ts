import type { Evaluate } from '@countercheck/rules';
import type { Prisma } from '../../generated/client.ts';
import { Calendar } from '../calendar.ts';
import { company } from '../cast.ts';
import { makeKits } from '../kits.ts';
import { Random } from '../random.ts';
import { tellStories, type Story } from '../stories.ts';
import { writeEvents } from './events.ts';
import { writeFindings } from './findings.ts';
import { writeHouses } from './houses.ts';
import { writePeople, type Cast } from './people.ts';
import { writePhotos } from './photos.ts';
import { writeVisits } from './visits.ts';

export interface Demo {
  stories: Story[];
  cast: Cast;
}

interface Setting {
  ruleSet: { id: string; evaluate: Evaluate };
  passwordHash: string;
  today: Date;
  seed?: number;
}

/** Writes the demo company into an empty database, in the caller's transaction. The same seed and day give the same. */
export async function writeDemo(
  db: Prisma.TransactionClient,
  { ruleSet, passwordHash, today, seed = 20260501 }: Setting,
): Promise<Demo> {
  const random = new Random(seed);
  const calendar = new Calendar(today, company.timezone);
  const kits = makeKits(calendar, random);
  const stories = tellStories({ calendar, kits, rules: ruleSet.evaluate, random });
  const cast = await writePeople(db, passwordHash, kits, calendar, random);
  await writeHouses(db, stories, cast, ruleSet.id, random);
  await writeVisits(db, stories, cast, calendar);
  await writeFindings(db, stories, cast, random);
  await writePhotos(db, stories, cast, random);
  await writeEvents(db, stories, cast);
  return { stories, cast };
}
