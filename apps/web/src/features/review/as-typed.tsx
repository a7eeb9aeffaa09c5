import type { Reading } from '@countercheck/contracts';
import { testDefinition } from '@countercheck/measurement';
import { useUnitSystem } from '../../lib/units/unit-system.ts';
import { enteredLines } from '../fieldwork/sheet/entered-lines.ts';

/** A reading as the rater typed it, in the words of its form, and what he had set up before. */
export function AsTyped({ reading }: { reading: Reading }) {
  const { confirmations } = testDefinition(reading.test);
  const ticked = confirmations.filter(({ key }) => reading.raw.confirmations[key] === true);
  return (
    <ul>
      {enteredLines(reading, useUnitSystem()).map(({ label, text }) => (
        <li key={label}>
          {label}: {text}
        </li>
      ))}
      <li>
        Confirmed before the reading: {ticked.length} of {confirmations.length}
      </li>
    </ul>
  );
}
