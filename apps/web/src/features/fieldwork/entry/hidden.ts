import type { VisitSheet } from '@countercheck/contracts';

/** Whether the installer's figures for this test are still kept from the rater. */
export function isHidden(file: VisitSheet['file'], test: string, subjectId: string): boolean {
  return file.hidden.some((each) => each.test === test && each.subjectId === subjectId);
}
