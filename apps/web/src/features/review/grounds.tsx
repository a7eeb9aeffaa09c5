import type { Comparison, ItemVerdict, Source } from '@countercheck/rules';
import { Quantity } from '../../components/fields/index.ts';
import { RowsTable } from '../../components/table/index.ts';

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
          cell: ({ comparison }) => <Quantity kind={comparison.quantity} value={comparison.value} />,
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
