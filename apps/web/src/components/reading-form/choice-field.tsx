import { Radio } from '@mantine/core';
import type { ChoiceDefinition, InstrumentFacts } from '@countercheck/measurement';
import { Choice } from '../fields/index.ts';

interface Props {
  choice: ChoiceDefinition;
  instrument: InstrumentFacts | null;
  value: string;
  problem: string | undefined;
  onChange(value: string): void;
}

const few = 4;

/** A choice of a reading: all in sight where there are few, else the phone's own list. */
export function ChoiceField({ choice, instrument, value, problem, onChange }: Props) {
  const ranges = choice.from === 'instrument-range';
  const options = ranges
    ? (instrument?.ranges ?? []).map(({ range }) => ({ value: range, label: range }))
    : choice.options;
  if (ranges && instrument && options.length === 0 && !choice.required) return null;
  const help = [choice.help, choice.required ? '' : 'May be left out.'].filter(Boolean).join(' ');
  if (ranges || options.length > few) {
    return (
      <Choice
        size="lg"
        label={choice.label}
        description={ranges && !instrument ? 'Choose the instrument first; its ranges come up here.' : help}
        value={value}
        error={problem}
        options={options}
        none="Choose…"
        onChange={(chosen) => onChange(chosen ?? '')}
      />
    );
  }
  return (
    <Radio.Group label={choice.label} description={help} value={value} error={problem} onChange={onChange}>
      <div className="big-choices">
        {options.map((option) => (
          <Radio key={option.value} size="md" value={option.value} label={option.label} />
        ))}
      </div>
    </Radio.Group>
  );
}
