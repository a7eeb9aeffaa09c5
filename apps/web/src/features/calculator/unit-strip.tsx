import { TextInput } from '@mantine/core';
import { quantities, type QuantityKind, type UnitSystem } from '@countercheck/measurement';
import { useState } from 'react';
import { Choice } from '../../components/fields/index.ts';
import { editableText, readText } from '../../lib/units/entry-text.ts';

const words: Partial<Record<QuantityKind, string>> = {
  staticPressure: 'Static pressure',
  airflow: 'Airflow',
  floorArea: 'Floor area',
  volume: 'Volume',
  openingArea: 'Area of an opening',
  length: 'Length',
  height: 'Height',
  leakagePerFloorArea: 'Leakage per floor area',
  openingPerFlow: 'Opening per flow',
  temperature: 'Temperature',
};
const options = Object.entries(words).map(([value, label]) => ({ value, label }));

/** One number in both systems of units; whichever side is typed, the other follows. */
export function UnitStrip() {
  const [kind, setKind] = useState<QuantityKind>('airflow');
  const [typed, setTyped] = useState<{ text: string; system: UnitSystem }>({ text: '100', system: 'us' });
  const { value, problem } = readText(kind, typed.text, typed.system);
  const side = (system: UnitSystem) => (
    <TextInput
      label={quantities[kind][system].label}
      inputMode="decimal"
      autoComplete="off"
      value={typed.system === system ? typed.text : editableText(kind, value, system)}
      error={typed.system === system ? problem : null}
      onChange={(event) => setTyped({ text: event.currentTarget.value, system })}
    />
  );
  return (
    <div className="unit-strip">
      <Choice
        label="Quantity"
        options={options}
        value={kind}
        onChange={(next) => setKind((next ?? kind) as QuantityKind)}
      />
      {side('us')}
      <span className="unit-strip-equals" aria-hidden="true">
        =
      </span>
      {side('si')}
    </div>
  );
}
