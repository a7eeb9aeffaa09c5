import { countAtMost, countBounds, shareAtMost, shareBounds } from '@countercheck/sampling';
import { useState } from 'react';
import { percentText } from '../words.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { Confidence } from './confidence.tsx';
import { attempt, NumberField } from './number-field.tsx';

/** What a sample lets one say about all. */
export function AllClearPanel() {
  const [population, setPopulation] = useState<number | string>(200);
  const [sample, setSample] = useState<number | string>(20);
  const [seen, setSeen] = useState<number | string>(0);
  const [confidence, setConfidence] = useState(0.95);
  const [all, n, x] = [Number(population), Number(sample), Number(seen)];
  const said = attempt(() => ({
    most: countAtMost(all, n, x, confidence),
    both: countBounds(all, n, x, confidence),
    share: shareAtMost(x, n, confidence),
    shares: shareBounds(x, n, confidence),
  }));
  const sure = percentText(confidence);
  return (
    <AnswerPanel
      title="What a sample lets one say"
      fields={
        <>
          <NumberField
            label="Files in the population"
            min={1}
            max={100_000}
            value={population}
            onChange={setPopulation}
          />
          <NumberField label="Looked at" min={1} value={sample} onChange={setSample} />
          <NumberField label="Of them defective" min={0} value={seen} onChange={setSeen} />
          <Confidence value={confidence} onChange={setConfidence} />
        </>
      }
      answer={said}
      facts={({ most, both, share, shares }) => [
        [
          `Of these ${all.toLocaleString('en-US')}, ${sure} sure`,
          <strong>at most {most.toLocaleString('en-US')} defective</strong>,
        ],
        ['Both bounds at once', `${both.low} to ${both.high} defective`],
        ['Of work without end', `at most ${percentText(share)} defective`],
        ['Both bounds at once, without end', `${percentText(shares.low)} to ${percentText(shares.high)}`],
      ]}
    >
      An all-clear sample never says that nothing is wrong. Exact: inverted hypergeometric test; Clopper and
      Pearson (from memory), held to values computed independently.
    </AnswerPanel>
  );
}
