import { ActionIcon } from '@mantine/core';
import { IconPlusMinus } from '@tabler/icons-react';
import type { FieldDefinition } from '@countercheck/measurement';
import { useState } from 'react';
import { QuantityInput } from '../fields/index.ts';
import { readText } from '../../lib/units/entry-text.ts';
import { useUnitSystem } from '../../lib/units/unit-system.ts';
import { shownText, turnSign, type TypedEntry } from './typed-entry.ts';

interface Props {
  field: FieldDefinition;
  entry: TypedEntry | undefined;
  problem: string | undefined;
  onChange(entry: TypedEntry): void;
}

/** One number of a reading, kept as it was typed: its last digit says how fine the reading was. */
export function NumberField({ field, entry, problem, onChange }: Props) {
  const system = useUnitSystem();
  const [turns, setTurns] = useState(0);
  const text = shownText(field.quantity, entry, system);
  const value = entry ? readText(field.quantity, entry.text, entry.system).value : null;
  const help = [field.help, field.required ? '' : 'May be left out.'].filter(Boolean).join(' ');
  const turn = (
    <ActionIcon
      size={44}
      variant="subtle"
      aria-label={`Turn the sign: ${field.label}`}
      onClick={() => {
        onChange(turnSign({ text, system }));
        setTurns(turns + 1);
      }}
    >
      <IconPlusMinus aria-hidden="true" />
    </ActionIcon>
  );
  return (
    <QuantityInput
      // The turned sign is typed text too, so the field begins anew with it.
      key={turns}
      kind={field.quantity}
      label={field.label}
      description={help}
      size="lg"
      aria-required={field.required}
      value={value}
      enteredText={text}
      error={problem}
      onChange={(_, typed) => onChange({ text: typed.text, system })}
      {...(field.signed ? { rightSection: turn, rightSectionWidth: 52 } : {})}
    />
  );
}
