import type { MeasuredValue, Step } from '@countercheck/measurement';
import { Doubt, Quantity } from '../../../components/fields/index.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import { showStored } from './figures.ts';

/** What a reading came to, each with its instrument's share of doubt. */
export function Results({ values }: { values: readonly MeasuredValue[] }) {
  return (
    <dl className="results">
      {values.map(({ key, label, quantity, value, standardUncertainty }) => (
        <div key={key}>
          <dt>{label}</dt>
          <dd>
            <Quantity kind={quantity} value={value} />
            <Doubt kind={quantity} value={standardUncertainty} />
          </dd>
        </div>
      ))}
    </dl>
  );
}

interface WorkingProps {
  steps: readonly Step[];
  remarks?: readonly string[];
  title?: string;
}

/** Every line of a computation, so that it can be checked with a pocket calculator. */
export function Working({ steps, remarks = [], title = 'Working' }: WorkingProps) {
  const system = useUnitSystem();
  if (steps.length === 0 && remarks.length === 0) return null;
  return (
    <details className="fold">
      <summary>{title}</summary>
      <ol className="working">
        {steps.map((step, i) => (
          <li key={`${i}-${step.label}`}>
            <span>{step.label}</span>
            <code>
              {step.working} = {showStored(step.value, step.unit, 'us')}
            </code>
            {system === 'si' && <span className="soft">= {showStored(step.value, step.unit, 'si')}</span>}
          </li>
        ))}
      </ol>
      {remarks.map((remark) => (
        <p key={remark} className="soft">
          Note: {remark}.
        </p>
      ))}
    </details>
  );
}
