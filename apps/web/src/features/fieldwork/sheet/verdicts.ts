import type { VisitSheet } from '@countercheck/contracts';
import type { HouseFile } from '@countercheck/assessment';
import type { ItemVerdict } from '@countercheck/rules';

/** A verdict travels loosely typed in the contract; it is what the rules package made, here and on the server. */
export const verdictsOf = (sheet: Pick<VisitSheet, 'verdicts'>) => sheet.verdicts as unknown as ItemVerdict[];

/** The house file as the assessment package types it. */
export const fileOf = (sheet: Pick<VisitSheet, 'file'>) => sheet.file as unknown as HouseFile;

/** One address for an item on its subject. */
export const verdictKey = ({ item, subjectId }: { item: string; subjectId: string }) =>
  `${item}/${subjectId}`;
