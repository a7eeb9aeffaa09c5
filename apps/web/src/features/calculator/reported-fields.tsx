import { testOutlines, type TestKey } from '@countercheck/measurement';
import { reportedFigures } from '@countercheck/rules';
import { QuantityInput } from '../../components/fields/index.ts';

const firstUpper = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

/** The figures that an installer reports of what this test measures again. */
export const reportedFor = (test: TestKey) =>
  reportedFigures.filter(
    (figure) => figure.subject === testOutlines[test].subject && figure.tests.includes(test),
  );

interface Props {
  test: TestKey;
  reported: Record<string, number | null>;
  onChange(reported: Record<string, number | null>): void;
}

/** What the installer would have signed for, for the limits that look at it. */
export function ReportedFields({ test, reported, onChange }: Props) {
  return (
    <div className="fields">
      {reportedFor(test).map(({ key, label, quantity }) => (
        <QuantityInput
          key={key}
          kind={quantity}
          label={firstUpper(label)}
          description="The installer’s own figure. May be left out."
          value={reported[key] ?? null}
          onChange={(value) => onChange({ ...reported, [key]: value })}
        />
      ))}
    </div>
  );
}
