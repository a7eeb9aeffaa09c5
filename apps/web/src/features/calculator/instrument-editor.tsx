import { ActionIcon, Button, TextInput } from '@mantine/core';
import { IconPlus, IconTrash } from '@tabler/icons-react';
import { nativeUnit, type InstrumentKind, type TestDefinition } from '@countercheck/measurement';
import { Choice, QuantityInput } from '../../components/fields/index.ts';
import { instrumentWords } from '../../lib/words/instruments.ts';
import { madeUp } from './made-up.ts';
import type { MadeUpInstrument, MadeUpRange } from './state.ts';

interface Props {
  test: TestDefinition;
  instrument: MadeUpInstrument;
  onChange(instrument: MadeUpInstrument): void;
}

const flowKinds: readonly InstrumentKind[] = ['blower-door', 'duct-tester'];
const mostRanges = 8;

/** An instrument that belongs to nobody, to see how its accuracy and its ranges enter the result. */
export function InstrumentEditor({ test, instrument, onChange }: Props) {
  const unit = nativeUnit(instrument.kind);
  const set = (changes: Partial<MadeUpInstrument>) => onChange({ ...instrument, ...changes });
  return (
    <>
      <div className="fields">
        <Choice
          label="Kind"
          options={test.instrumentKinds.map((kind) => ({ value: kind, label: instrumentWords[kind] }))}
          value={instrument.kind}
          onChange={(kind) => onChange(madeUp(kind as InstrumentKind))}
        />
        <QuantityInput
          kind="ratio"
          label="Accuracy, % of reading"
          value={instrument.accuracyPercent}
          onChange={(accuracyPercent) => set({ accuracyPercent })}
        />
        <QuantityInput
          kind="ratio"
          label={`Accuracy, at least (${unit})`}
          value={instrument.accuracyAbsolute}
          onChange={(accuracyAbsolute) => set({ accuracyAbsolute })}
        />
      </div>
      {flowKinds.includes(instrument.kind) && (
        <RangesEditor ranges={instrument.ranges} onChange={(ranges) => set({ ranges })} />
      )}
    </>
  );
}

interface RangesProps {
  ranges: MadeUpRange[];
  onChange(ranges: MadeUpRange[]): void;
}

const numbers = [
  ['c', 'c'],
  ['n', 'n'],
  ['minPa', 'From, Pa'],
  ['maxPa', 'To, Pa'],
] as const;

function RangesEditor({ ranges, onChange }: RangesProps) {
  const replace = (index: number, changes: Partial<MadeUpRange>) =>
    onChange(ranges.map((range, i) => (i === index ? { ...range, ...changes } : range)));
  return (
    <fieldset className="calculator-ranges">
      <legend>Ranges (ring, plate or hole setting): flow in cfm = c × Pa ^ n</legend>
      {ranges.map((range, i) => (
        <div className="calculator-range" key={i} role="group" aria-label={`Range ${i + 1}`}>
          <TextInput
            label="Range"
            maxLength={40}
            value={range.range}
            onChange={(event) => replace(i, { range: event.currentTarget.value })}
          />
          {numbers.map(([key, label]) => (
            <QuantityInput
              key={key}
              kind="ratio"
              label={label}
              value={range[key]}
              onChange={(value) => replace(i, { [key]: value })}
            />
          ))}
          <ActionIcon
            variant="subtle"
            color="red"
            size="lg"
            aria-label={`Remove range ${i + 1}`}
            onClick={() => onChange(ranges.filter((_, each) => each !== i))}
          >
            <IconTrash size={18} aria-hidden="true" />
          </ActionIcon>
        </div>
      ))}
      {ranges.length < mostRanges && (
        <Button
          variant="default"
          leftSection={<IconPlus size={16} aria-hidden="true" />}
          onClick={() => onChange([...ranges, { range: '', c: null, n: 0.5, minPa: 15, maxPa: 350 }])}
        >
          Add a range
        </Button>
      )}
    </fieldset>
  );
}
