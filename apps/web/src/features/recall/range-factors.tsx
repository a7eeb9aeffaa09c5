import type { ReactNode } from 'react';
import { QuantityInput } from '../../components/fields/index.ts';

interface RangeFactorsProps {
  ranges: readonly string[];
  factors: Readonly<Record<string, number | null>>;
  /** by the path in what is sent */
  errors: Readonly<Record<string, ReactNode>>;
  onChange: (factors: Record<string, number | null>) => void;
}

/** A factor for each calibrated range; 1 leaves a range as it is. */
export function RangeFactors({ ranges, factors, errors, onChange }: RangeFactorsProps) {
  return (
    <fieldset>
      <legend>Flow worked out with the coefficient ÷ actual flow; 1 where it was right</legend>
      {ranges.length === 0 ? (
        <p className="soft">Choose an instrument with calibrated ranges.</p>
      ) : (
        <div className="fields">
          {ranges.map((range, index) => (
            <QuantityInput
              key={range}
              kind="ratio"
              label={range}
              value={factors[range] === undefined ? 1 : factors[range]}
              error={errors[`error.ranges.${index}.factor`]}
              onChange={(factor) => onChange({ ...factors, [range]: factor })}
            />
          ))}
        </div>
      )}
    </fieldset>
  );
}
