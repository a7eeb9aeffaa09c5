import type { Checklist } from '@countercheck/quality';
import { inForce, loadChecklists } from '@countercheck/quality/load';
import { readVersions } from '../../../kernel/versions/read-versions.ts';

let versions: Promise<Checklist[]> | undefined;
const all = () => (versions ??= readVersions('checklists/file-review').then(loadChecklists));

/** The checklist in force on a day (YYYY-MM-DD). Throws, naming file and line, when a version has a fault. */
export async function checklistOn(day: string): Promise<Checklist> {
  return inForce(await all(), day);
}

/** The checklist that a review was begun with, or the one of the day while it was not. */
export async function checklistFor(
  review: { checklistVersion: string | null },
  day: string,
): Promise<Checklist> {
  const list = await all();
  return list.find(({ version }) => version === review.checklistVersion) ?? inForce(list, day);
}
