import { instrumentWords, type TestDefinition } from '@countercheck/measurement';
import { Choice } from '../../../components/fields/index.ts';
import { showDate } from '../../../lib/dates.ts';
import { instrumentName, type OfferedInstrument } from './instruments.ts';

interface Props {
  test: TestDefinition;
  offered: readonly OfferedInstrument[];
  value: string | null;
  problem: string | undefined;
  onChange(id: string | null): void;
}

function words(offered: OfferedInstrument): string {
  const { facts, state } = offered;
  const name = instrumentName(offered);
  if (state.counts) return name;
  return `${name} – does not count, ${facts.dueOn ? `was due ${showDate(facts.dueOn)}` : 'no calibration'}`;
}

/** The instruments that can do the test; one out of calibration can be named, and says that it does not count. */
export function InstrumentPicker({ test, offered, value, problem, onChange }: Props) {
  const kinds = test.instrumentKinds.map(instrumentWords).join(' or ');
  const chosen = offered.find(({ facts }) => facts.id === value);
  const lapsed = chosen && !chosen.state.counts ? chosen.state.words : undefined;
  return (
    <Choice
      size="lg"
      label="Instrument"
      description={
        offered.length === 0
          ? `The company has no ${kinds} on its list; ask the office.`
          : chosen?.state.words
      }
      value={value}
      error={lapsed ?? problem}
      none={test.instrumentRequired ? `Choose the ${kinds}…` : 'None from the list'}
      options={offered.map((each) => ({ value: each.facts.id, label: words(each) }))}
      onChange={onChange}
    />
  );
}
