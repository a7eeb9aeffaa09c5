import type { TestKey } from '@countercheck/measurement';
import { useUnitSystem } from '../../lib/units/unit-system.ts';
import { methodSources } from './method-sources.ts';
import { stepsTo } from './steps-to.ts';
import { doubt, showWorked, uncertaintyWords, type WorkedValue } from './uncertainty-words.ts';
import { Working, type WorkingStep } from './working.tsx';

interface ResultsProps {
  test: TestKey;
  values: readonly WorkedValue[];
  steps: readonly WorkingStep[];
  remarks?: readonly string[];
}

/** What a reading came to: every number with its doubt, and each opens its working. */
export function Results({ test, values, steps, remarks = [] }: ResultsProps) {
  const system = useUnitSystem();
  return (
    <>
      <dl className="results">
        {values.map((each) => (
          <div key={each.key}>
            <dt>{each.label}</dt>
            <dd>
              <Working
                label={each.label}
                steps={stepsTo(each, steps)}
                notes={[uncertaintyWords(each, system)]}
                sources={methodSources[test]}
              >
                <span className="figure">{showWorked(each, each.value, system)}</span>{' '}
                <span className="doubt">{doubt(each, system)}</span>
              </Working>
            </dd>
          </div>
        ))}
      </dl>
      {remarks.map((remark) => (
        <p key={remark} className="soft">
          Note: {remark}.
        </p>
      ))}
    </>
  );
}
