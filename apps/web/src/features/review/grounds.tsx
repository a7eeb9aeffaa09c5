import type { Step } from '@countercheck/measurement';
import type { Comparison, ItemVerdict, Source } from '@countercheck/rules';
import { Quantity } from '../../components/fields/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { stepsTo, Working } from '../../components/working/index.ts';
import { chanceWords } from '../../lib/words/chance.ts';

interface Ground {
  key: string;
  way: string;
  comparison: Comparison;
  source: Source;
}

function groundsOf({ trace }: ItemVerdict): Ground[] {
  const ways = [
    ...trace.options.map((way) => ({ ...way, key: way.option, kind: '' })),
    ...trace.exemptions.map((way) => ({ ...way, key: way.exemption, kind: 'Exemption: ' })),
  ];
  return ways.flatMap(({ key, kind, title, comparisons, source }) =>
    comparisons.map((comparison, i) => ({
      key: `${key}/${i}/${comparison.name}`,
      way: `${kind}${title}${trace.decidedBy === key ? ' (decided)' : ''}`,
      comparison,
      source,
    })),
  );
}

const bound = ({ low, high, quantity }: Comparison) => (
  <>
    {low !== null && (
      <>
        at least <Quantity kind={quantity} value={low} />{' '}
      </>
    )}
    {high !== null && (
      <>
        at most <Quantity kind={quantity} value={high} />
      </>
    )}
    {low === null && high === null && '–'}
  </>
);

/** What was found, with the lines that led to it and the chance that the truth lies beyond the bound. */
function Found({ comparison, source, steps }: Pick<Ground, 'comparison' | 'source'> & { steps: Step[] }) {
  const { value, quantity, unit, label, words, chanceOutside, holds } = comparison;
  if (value === null) return <Quantity kind={quantity} value={null} />;
  const chance = chanceWords(chanceOutside);
  return (
    <Working
      label={label}
      steps={stepsTo({ value, unit }, steps)}
      notes={[words, ...(chance && holds !== null ? [`${chance} that the true value lies outside.`] : [])]}
      sources={[source]}
    >
      <Quantity kind={quantity} value={value} />
    </Working>
  );
}

/** What a verdict rests on, comparison by comparison, each with its source. */
export function Grounds({ verdict }: { verdict: ItemVerdict }) {
  const rows = groundsOf(verdict);
  if (rows.length === 0) return null;
  return (
    <RowsTable
      caption={`Grounds: ${verdict.title}, ${verdict.subjectLabel}`}
      rows={rows}
      keyOf={({ key }) => key}
      columns={[
        { title: 'Way', cell: ({ way }) => way },
        { title: 'Compared', cell: ({ comparison }) => comparison.label },
        {
          title: 'Found',
          figure: true,
          cell: ({ comparison, source }) => <Found {...{ comparison, source }} steps={verdict.trace.steps} />,
        },
        { title: 'Bound', figure: true, cell: ({ comparison }) => bound(comparison) },
        {
          title: 'Holds',
          cell: ({ comparison: { holds } }) => (holds === null ? 'not known' : holds ? 'yes' : 'no'),
        },
        {
          title: 'Source',
          cell: ({ source }) => `${source.citation}${source.confirmed ? '' : ' – not confirmed'}`,
        },
      ]}
    />
  );
}
