import { QuantityInput } from '../../components/fields/index.ts';
import type { AnyForm } from '../../lib/forms/index.ts';

/** A factor for each calibrated range; 1 leaves a range as it is. */
export function RangeFactors({ form, ranges }: { form: AnyForm; ranges: readonly string[] }) {
  const error = form.getInputProps('error.ranges').error as string | undefined;
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
              {...form.getInputProps(`error.ranges.${index}.factor`)}
            />
          ))}
        </div>
      )}
      {error && ranges.length === 0 && <p role="alert">{error}</p>}
    </fieldset>
  );
}
