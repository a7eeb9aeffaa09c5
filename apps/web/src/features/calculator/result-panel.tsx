import { EnvelopeFit } from '../../components/envelope-fit/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Results, Steps } from '../../components/working/index.ts';
import { onDemand } from '../../lib/on-demand.tsx';
import { RuleSetChoice, useRuleSets } from './rule-set-choice.tsx';
import type { useCalculator } from './use-calculator.ts';

const Verdicts = onDemand(async () => (await import('./verdicts.tsx')).Verdicts);

const none: never[] = [];

/** What the inputs come to: the numbers, every step, the drawing of a fit, and the verdict of a rule set. */
export function ResultPanel({ calculator }: { calculator: ReturnType<typeof useCalculator> }) {
  const { state, change, test, outcome, reading, touched } = calculator;
  const rules = useRuleSets(state.ruleSet);
  return (
    <>
      <Panel title="Result">
        <div className="stack" aria-live="polite">
          {outcome.ok ? (
            <Results test={test.key} {...outcome} />
          ) : touched ? (
            <ul className="calculator-problems">
              {outcome.problems.map(({ path, code, message }) => (
                <li key={`${path}/${code}`}>{message}</li>
              ))}
            </ul>
          ) : (
            <p className="soft">The result comes up here while you type.</p>
          )}
        </div>
        <EnvelopeFit
          test={test.key}
          raw={reading.raw}
          instrument={reading.instrument}
          problems={outcome.ok ? none : outcome.problems}
        />
      </Panel>
      {outcome.ok && outcome.steps.length > 0 && (
        <Panel title="Every step">
          <Steps steps={outcome.steps} />
        </Panel>
      )}
      <Panel title="Verdict">
        <div className="stack">
          <RuleSetChoice {...rules} onChange={(ruleSet) => change({ ruleSet })} />
          {outcome.ok && rules.set && <Verdicts ruleSetId={rules.set.id} state={state} reading={reading} />}
        </div>
      </Panel>
    </>
  );
}
