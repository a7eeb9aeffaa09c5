import { TextInput, type TextInputProps } from '@mantine/core';
import { quantities, type QuantityKind } from '@countercheck/measurement';
import { useState } from 'react';
import { editableText, enteredUnit, readText } from '../../lib/units/entry-text.ts';
import { useUnitSystem } from '../../lib/units/unit-system.ts';

interface QuantityInputProps extends Omit<TextInputProps, 'value' | 'defaultValue' | 'onChange' | 'type'> {
  kind: QuantityKind;
  /** in the stored unit; null when empty */
  value?: number | null | undefined;
  /** NaN when what was typed is no number; the text and its unit come along for records that keep them */
  onChange: (value: number | null, entered: { text: string; unit: string }) => void;
  /** what was typed when the field was last left, so that its last digit shows again */
  enteredText?: string;
}

const same = (a: number | null | undefined, b: number | null) =>
  (a ?? null) === b || (Number.isNaN(a) && Number.isNaN(b));

/** A number with its unit: typed in the unit shown, kept as typed, yielded in the stored unit. */
export function QuantityInput({
  kind,
  value,
  onChange,
  enteredText,
  error,
  label,
  ...rest
}: QuantityInputProps) {
  const system = useUnitSystem();
  const [typed, setTyped] = useState(() => ({
    text: enteredText ?? editableText(kind, value ?? null, system),
    value: value ?? null,
    system,
  }));

  // What was typed stands until the value or the units change from outside; then the value is shown anew.
  let text = typed.text;
  if (typed.system !== system || !same(value, typed.value)) {
    const unreadable = typed.value !== null && Number.isNaN(typed.value) && same(value, typed.value);
    text = unreadable ? typed.text : editableText(kind, value ?? null, system);
    setTyped({ text, value: value ?? null, system });
  }

  const unit = quantities[kind][system].label;
  return (
    <TextInput
      {...rest}
      label={
        unit && label ? (
          <>
            {label} <span className="unit">({unit})</span>
          </>
        ) : (
          label
        )
      }
      inputMode={quantities[kind][system].decimals === 0 && kind === 'count' ? 'numeric' : 'decimal'}
      autoComplete="off"
      value={text}
      error={error ?? readText(kind, text, system).problem}
      onChange={(event) => {
        const next = event.currentTarget.value;
        const read = readText(kind, next, system);
        setTyped({ text: next, value: read.value, system });
        onChange(read.value, { text: next.trim(), unit: enteredUnit(kind, system) });
      }}
    />
  );
}
