import type { HouseFile } from '@countercheck/assessment';
import type { QuantityKind, TestKey } from '@countercheck/measurement';
import { reportedFigures } from '@countercheck/rules';
import type { Subject } from '@countercheck/assessment';

export interface ReportedLine {
  label: string;
  quantity: QuantityKind;
  value: number | null;
}

/** What the installer reported for the thing that a test measures again. */
export function reportedFor(file: HouseFile, test: TestKey, subject: Subject): ReportedLine[] {
  return reportedFigures
    .filter((figure) => figure.subject === subject.kind && figure.tests.includes(test))
    .map(({ key, label, quantity }) => ({
      label,
      quantity,
      value: file.reported[subject.id]?.[key] ?? null,
    }));
}
