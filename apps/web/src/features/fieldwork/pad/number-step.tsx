import { Button, TextInput, VisuallyHidden } from '@mantine/core';
import { IconArrowBackUp, IconBackspace } from '@tabler/icons-react';
import { quantities, type FieldDefinition } from '@countercheck/measurement';
import { useState } from 'react';
import { shownText, type TypedEntry } from '../../../components/reading-form/index.ts';
import { readText } from '../../../lib/units/entry-text.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import { press, type PadKey } from './press.ts';

interface Props {
  field: FieldDefinition;
  /** which row it is of, in words; empty for the test itself */
  within: string;
  entry: TypedEntry | undefined;
  problem: string | undefined;
  /** the number read last at such a place, to compare with */
  last: { text: string; where: string } | null;
  onChange(entry: TypedEntry): void;
}

const rows: (PadKey | 'undo')[] = [
  '7',
  '8',
  '9',
  'back',
  '4',
  '5',
  '6',
  'undo',
  '1',
  '2',
  '3',
  'sign',
  '0',
  '.',
];

/** One number by keys that a glove hits; a keyboard types into the same field. Each key is kept at once. */
export function NumberStep({ field, within, entry, problem, last, onChange }: Props) {
  const system = useUnitSystem();
  const text = shownText(field.quantity, entry, system);
  const [past, setPast] = useState<string[]>([]);
  const { label: unit, decimals } = quantities[field.quantity][system];
  const whole = field.quantity === 'count' && decimals === 0;
  const to = (next: string) => {
    if (next === text) return;
    setPast([...past, text]);
    onChange({ text: next, system });
  };
  const undo = () => {
    const before = past.at(-1);
    if (before === undefined) return;
    setPast(past.slice(0, -1));
    onChange({ text: before, system });
  };
  const words: Partial<Record<PadKey | 'undo', string>> = {
    back: 'Take back the last digit',
    undo: 'Undo',
    sign: 'Turn the sign',
    '.': 'Decimal point',
  };
  const face: Partial<Record<PadKey | 'undo', React.ReactNode>> = {
    back: <IconBackspace aria-hidden="true" />,
    undo: <IconArrowBackUp aria-hidden="true" />,
    sign: '±',
  };
  const off = (key: PadKey | 'undo') =>
    (key === 'sign' && !field.signed) || (key === '.' && whole) || (key === 'undo' && past.length === 0);
  return (
    <>
      <TextInput
        className="pad-entry"
        data-autofocus
        size="xl"
        // The pad is the keyboard; one that is plugged in types here all the same.
        inputMode="none"
        autoComplete="off"
        label={`${within}${field.label}${unit ? ` (${unit})` : ''}`}
        description={[field.help, field.required ? '' : 'May be left out.'].filter(Boolean).join(' ')}
        aria-required={field.required}
        value={text}
        error={readText(field.quantity, text, system).problem ?? problem}
        rightSection={<span aria-hidden="true">{unit}</span>}
        rightSectionWidth={`${Math.max(3, unit.length * 0.75 + 1)}rem`}
        onChange={(event) => to(event.currentTarget.value)}
      />
      {last && (
        <p className="soft small">
          Last reading kept: <strong>{last.text}</strong> {last.where}
        </p>
      )}
      <VisuallyHidden role="status">{text === '' ? 'Empty' : `${text} ${unit}`}</VisuallyHidden>
      <div className="pad-keys" role="group" aria-label="Number pad">
        {rows.map((key) => (
          <Button
            key={key}
            className={`pad-key pad-key-${key === '.' ? 'point' : key}`}
            variant="default"
            disabled={off(key)}
            aria-label={words[key]}
            // The field keeps the focus, so that keyboard and pad can be used in turns.
            onMouseDown={(event) => event.preventDefault()}
            onClick={() => (key === 'undo' ? undo() : to(press(text, key)))}
          >
            {face[key] ?? key}
          </Button>
        ))}
      </div>
    </>
  );
}
