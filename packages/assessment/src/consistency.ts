import { subjectsOf } from './subjects.ts';
import type { HouseFile } from './types.ts';

/**
 * Contradictions within a house's file that no rule can see, one sentence each: what is not listed is not
 * judged, so a forgotten bedroom would pass unseen. A house with any of them should not be released.
 */
export function fileProblems(file: HouseFile): string[] {
  const problems: string[] = [];
  const bedrooms = file.rooms.filter((each) => each.kind === 'bedroom').length;
  if (bedrooms !== file.house.bedrooms)
    problems.push(`The house has ${file.house.bedrooms} bedrooms, its file lists ${bedrooms}.`);
  if (file.systems.length === 0)
    problems.push(
      'The house’s file lists no heating or cooling system, so no duct was asked for. Enter every system, also one without ducts.',
    );
  const ids = subjectsOf(file).map((each) => each.id);
  const twice = [...new Set(ids.filter((id, i) => ids.indexOf(id) < i))];
  if (twice.length > 0) problems.push(`The file uses an id more than once: ${twice.join(', ')}.`);
  return problems;
}
