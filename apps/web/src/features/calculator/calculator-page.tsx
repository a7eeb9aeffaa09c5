import { Button } from '@mantine/core';
import { testDefinitions, testKeys, type TestKey } from '@countercheck/measurement';
import { useState } from 'react';
import { Choice } from '../../components/fields/index.ts';
import { Caution } from '../../components/marks/index.ts';
import { Page, Panel } from '../../components/page/index.ts';
import { Confirmations, PartFields, RowsEntry } from '../../components/reading-form/index.ts';
import { examples } from './examples.ts';
import { asksFacts, FactsFields } from './facts-fields.tsx';
import { InstrumentEditor } from './instrument-editor.tsx';
import { ReportedFields, reportedFor } from './reported-fields.tsx';
import { ResultPanel } from './result-panel.tsx';
import { SharePanel } from './share-panel.tsx';
import { withTest } from './state.ts';
import { UnitStrip } from './unit-strip.tsx';
import { useCalculator } from './use-calculator.ts';
import './calculator.css';

const tests = testKeys.map((key) => ({ value: key, label: testDefinitions[key].title }));

/** Each test on its own, for training: type a reading, see every line of its working. Nothing is saved. */
export default function CalculatorPage() {
  const calculator = useCalculator();
  const { state, change, replace, test, problems } = calculator;
  // Fields keep what is typed to themselves; a new filling makes new fields.
  const [filling, setFilling] = useState(0);
  const fill = (next: typeof state) => {
    replace(next);
    setFilling(filling + 1);
  };
  const key = `${calculator.openedHash}/${filling}`;
  return (
    <Page title="Calculator" lead="Each test on its own, for training. Nothing typed here is saved.">
      {calculator.badLink && (
        <Caution>
          <p>The link cannot be read: it was cut short or changed on its way. The page begins empty.</p>
        </Caution>
      )}
      <div className="no-print">
        <Panel title="Units">
          <UnitStrip />
        </Panel>
      </div>
      <div className="calculator">
        <div className="stack">
          <Panel title="Reading">
            <div className="stack" key={key}>
              <Choice
                label="Test"
                options={tests}
                value={state.test}
                onChange={(chosen) => fill(withTest(state, (chosen ?? state.test) as TestKey))}
              />
              <p className="soft">{test.how}</p>
              {test.cautions.map((caution) => (
                <Caution key={caution}>
                  <p>{caution}</p>
                </Caution>
              ))}
              <div className="no-print">
                <Button variant="default" onClick={() => fill({ ...state, form: examples[state.test] })}>
                  Fill in an example
                </Button>
              </div>
              <Confirmations
                confirmations={test.confirmations}
                ticked={state.form.confirmations}
                problems={{}}
                onChange={(confirmations) => change({ form: { ...state.form, confirmations } })}
              />
              <PartFields
                fields={test.fields}
                choices={test.choices}
                part={state.form}
                prefix=""
                problems={problems}
                instrument={calculator.instrument}
                onChange={(part) => change({ form: { ...state.form, ...part } })}
              />
              {test.rows && (
                <RowsEntry
                  definition={test.rows}
                  rows={state.form.rows}
                  problems={problems}
                  instrument={calculator.instrument}
                  onChange={(rows) => change({ form: { ...state.form, rows } })}
                />
              )}
            </div>
          </Panel>
          <Panel title="Instrument, made up">
            <div className="stack" key={`${key}/${state.instrument.kind}`}>
              <InstrumentEditor
                test={test}
                instrument={state.instrument}
                onChange={(instrument) => change({ instrument })}
              />
            </div>
          </Panel>
          {(asksFacts(state.test) || reportedFor(state.test).length > 0) && (
            <Panel title="House and installer">
              <div className="stack" key={key}>
                <FactsFields test={state.test} facts={state.facts} onChange={(facts) => change({ facts })} />
                <ReportedFields
                  test={state.test}
                  reported={state.reported}
                  onChange={(reported) => change({ reported })}
                />
              </div>
            </Panel>
          )}
        </div>
        <div className="stack calculator-result">
          <ResultPanel calculator={calculator} />
          <SharePanel state={state} />
        </div>
      </div>
    </Page>
  );
}
