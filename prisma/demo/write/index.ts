import type { Evaluate } from '@countercheck/rules';
import type { Prisma } from '../../generated/client.ts';
import { Calendar } from '../calendar.ts';
import { company } from '../cast.ts';
import { earlierKits, makeKits } from '../kits.ts';
import { Random } from '../random.ts';
import { tellStories, type Story } from '../stories.ts';
import { tellYear, type YearStory } from '../year/stories.ts';
import { writeEvents, type SealedFile } from './events.ts';
import { writeFindings } from './findings.ts';
import { writeHouses } from './houses.ts';
import { writePeople, type Cast } from './people.ts';
import { writePhotos } from './photos.ts';
import { writeVisits } from './visits.ts';

export interface Demo {
  /** the houses of the past weeks, each where it stands today */
  stories: Story[];
  /** houses released in the past twelve months */
  year: YearStory[];
  cast: Cast;
}

interface Setting {
  ruleSet: { id: string; evaluate: Evaluate };
  passwordHash: string;
  today: Date;
  seed?: number;
  /** seals the files of the past year as they stand, each at its time; called when they are all written */
  seal: (year: YearStory[], cast: Cast) => Promise<SealedFile[]>;
}

/** Writes the demo company into an empty database, in the caller's transaction. The same seed and day give the same. */
export async function writeDemo(
  db: Prisma.TransactionClient,
  { ruleSet, passwordHash, today, seed = 20260501, seal }: Setting,
): Promise<Demo> {
  const random = new Random(seed);
  const calendar = new Calendar(today, company.timezone);
  const kits = makeKits(calendar, random);
  const stories = tellStories({ calendar, kits, rules: ruleSet.evaluate, random });
  // Drawn apart, so that the houses of today stay as they are whatever the year before was like.
  const past = new Random(seed + 1);
  const earlier = earlierKits(kits, past);
  const year = tellYear({ calendar, kits, earlier, rules: ruleSet.evaluate, random: past });
  const all = [...stories, ...year];
  const cast = await writePeople(db, passwordHash, { kits, earlier }, calendar, random);
  await writeHouses(db, stories, cast, ruleSet.id, random);
  await writeHouses(db, year, cast, ruleSet.id, past);
  await writeVisits(db, all, cast, calendar);
  await writeFindings(db, stories, cast, random);
  await writeFindings(db, year, cast, past);
  await writePhotos(db, stories, cast, random);
  await writeEvents(db, all, cast, await seal(year, cast));
  // After the seals: what was measured a second time is part of no file.
  const again = year.flatMap((story) => (story.retest ? [{ ...story, visits: [story.retest] }] : []));
  await writeVisits(db, again, cast, calendar);
  return { stories, year, cast };
}
