import { detectionSample } from '@countercheck/sampling';
import { useState } from 'react';
import { percentText } from '../words.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { Confidence } from './confidence.tsx';
import { attempt, NumberField } from './number-field.tsx';

/** How many to look at so that at least one defect shows. */
export function DetectionPanel() {
  const [population, setPopulation] = useState<number | string>(200);
  const [rate, setRate] = useState<number | string>(5);
  const [confidence, setConfidence] = useState(0.95);
  const found = attempt(() =>
    detectionSample({ population: Number(population), rate: Number(rate) / 100, confidence }),
  );
  return (
    <AnswerPanel
      title="To find at least one defect"
      fields={
        <>
          <NumberField
            label="Files in all"
            min={1}
            max={1_000_000}
            value={population}
            onChange={setPopulation}
          />
          <NumberField
            label="Where so many are defective, %"
            min={0.01}
            max={100}
            decimals={2}
            value={rate}
            onChange={setRate}
          />
          <Confidence value={confidence} onChange={setConfidence} />
        </>
      }
      answer={found}
      facts={({ sample, defective, reached }) => [
        ['Look at', <strong>{sample.toLocaleString('en-US')} files</strong>],
        ['Defective ones at that rate', defective.toLocaleString('en-US')],
        ['Chance to find at least one', percentText(reached)],
      ]}
    >
      Hypergeometric, without replacement: textbooks of probability; held to values computed independently.
    </AnswerPanel>
  );
}
