import type { Comparison, ExemptionTrace, ItemVerdict, OptionTrace } from '@countercheck/rules';
import { Tag } from '../../../components/marks/index.ts';
import { SourceMark, stepsTo, Working } from '../../../components/working/index.ts';
import { showStored } from '../../../lib/units/show-stored.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';

const verdictWords = { holds: 'holds', fails: 'does not hold', incomplete: 'not complete' } as const;
const fromWords = {
  house: 'house',
  subject: 'this part',
  reported: 'installer',
  measured: 'measured',
} as const;

function Compared({ comparison }: { comparison: Comparison }) {
  return (
    <li>
      <strong>{comparison.label}</strong>: {comparison.words}
      {comparison.holds === null ? '' : comparison.holds ? ' – holds' : ' – does not hold'}
    </li>
  );
}

interface WayProps {
  title: string;
  decided: boolean;
  way: Pick<OptionTrace, 'comparisons' | 'verdict' | 'source'> & { missing?: string[] };
}

function Way({ title, decided, way }: WayProps) {
  const unsaid = (missing: string) => !way.comparisons.some(({ words }) => words === missing);
  return (
    <li className="way">
      <p>
        <strong>{title}</strong> – {verdictWords[way.verdict]} {decided && <Tag tone="good">Decided</Tag>}
      </p>
      <ul>
        {way.comparisons.map((comparison, i) => (
          <Compared key={`${i}-${comparison.name}`} comparison={comparison} />
        ))}
        {way.missing?.filter(unsaid).map((missing) => (
          <li key={missing}>Still missing: {missing}</li>
        ))}
      </ul>
      <SourceMark source={way.source} />
    </li>
  );
}

/** How a verdict came about: the ways tried, what went in, where each limit comes from, what would change it. */
export function WhyVerdict({ verdict }: { verdict: ItemVerdict }) {
  const system = useUnitSystem();
  const { trace } = verdict;
  const ways = (list: readonly (OptionTrace | ExemptionTrace)[]) =>
    list.map((way) => {
      const key = 'option' in way ? way.option : way.exemption;
      return <Way key={key} title={way.title} decided={trace.decidedBy === key} way={way} />;
    });
  return (
    <details className="fold">
      <summary>Why this verdict</summary>
      {trace.applies.length > 0 && (
        <>
          <h4>Applies when</h4>
          <ul>
            {trace.applies.map(({ words, holds }) => (
              <li key={words}>
                {words}
                {!holds && ' – does not hold'}
              </li>
            ))}
          </ul>
        </>
      )}
      {trace.options.length > 0 && (
        <>
          <h4>Ways to pass, in the order tried</h4>
          <ol>{ways(trace.options)}</ol>
        </>
      )}
      {trace.exemptions.length > 0 && (
        <>
          <h4>Exemptions</h4>
          <ul>{ways(trace.exemptions)}</ul>
        </>
      )}
      {trace.inputs.length > 0 && (
        <>
          <h4>What went in</h4>
          <ul>
            {trace.inputs.map(({ name, label, value, unit, from }) => (
              <li key={name}>
                {label} ({fromWords[from]}):{' '}
                {typeof value !== 'number' ? (
                  sayPlain(value)
                ) : from === 'measured' ? (
                  <Working label={label} steps={stepsTo({ value, unit: unit ?? '' }, trace.steps)}>
                    {showStored(value, unit ?? '', system)}
                  </Working>
                ) : (
                  showStored(value, unit ?? '', system)
                )}
              </li>
            ))}
          </ul>
        </>
      )}
      {trace.wouldChange.length > 0 && (
        <>
          <h4>What would change it</h4>
          <ul>
            {trace.wouldChange.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </>
      )}
      {trace.remarks.map((remark) => (
        <p key={remark} className="soft">
          Note: {remark}.
        </p>
      ))}
    </details>
  );
}

function sayPlain(value: string | boolean | null): string {
  if (value === null) return 'not known, or hidden';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return value.replaceAll('-', ' ');
}
