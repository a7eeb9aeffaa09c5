import type { ReplayResult } from '@countercheck/contracts';
import { Caution } from '../../components/marks/index.ts';
import { FactList, Panel } from '../../components/page/index.ts';
import { Empty } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { VerdictOf } from './change-mark.tsx';
import { reinspectionWords, signed } from './words.ts';

const figure = (count: number) => <span className="figure">{count.toLocaleString('en-US')}</span>;

type ItemRow = ReplayResult['items'][number];
const itemColumns: Column<ItemRow>[] = [
  { title: 'Item', head: true, cell: (row) => row.title },
  { title: 'Is', cell: (row) => <VerdictOf status={row.before} /> },
  { title: 'Would be', cell: (row) => <VerdictOf status={row.after} /> },
  { title: 'Verdicts', figure: true, cell: (row) => figure(row.count) },
];

type NamedRow = ReplayResult['builders'][number];
const namedColumns = (title: string): Column<NamedRow>[] => [
  { title, head: true, cell: (row) => row.name },
  { title: 'Houses', figure: true, cell: (row) => figure(row.houses) },
  { title: 'Verdicts', figure: true, cell: (row) => figure(row.changed) },
  { title: 'Reinspections more', figure: true, cell: (row) => figure(row.more) },
  { title: 'Fewer', figure: true, cell: (row) => figure(row.fewer) },
  {
    title: 'Difference',
    figure: true,
    cell: (row) => <span className="figure">{signed(row.more - row.fewer)}</span>,
  },
];

/** What a replay found: first what it would cost, then where. */
export function ResultPanels({ result }: { result: ReplayResult }) {
  const keyOf = (row: NamedRow) => row.id ?? 'nobody';
  return (
    <>
      <Panel title="What it would have cost">
        <div className="stack">
          <p>
            <strong>{reinspectionWords(result)}</strong>
          </p>
          <FactList
            facts={[
              ['Reinspections then', figure(result.reinspectionsBefore)],
              ['Reinspections with these rules', figure(result.reinspectionsAfter)],
              ['Houses looked at', figure(result.houses)],
              ['Houses affected', figure(result.affected)],
              ['Verdicts that change', figure(result.changed)],
              ['Took', `${(result.milliseconds / 1000).toFixed(1)} s`],
            ]}
          />
          <p className="soft small">
            A house counts for one reinspection when an item fails by what was read first, before any
            correction. Verdicts are compared as the files stand now, both sets from the same readings.
          </p>
          {result.unreadable > 0 && (
            <Caution>
              The facts of {figure(result.unreadable)} houses could not be read; they are in no number here.
              Tell the administrator.
            </Caution>
          )}
        </div>
      </Panel>
      <Panel title="By item" flush>
        {result.items.length === 0 ? (
          <Empty title="No verdict would change" />
        ) : (
          <RowsTable
            caption="Verdicts that would change, by item"
            columns={itemColumns}
            rows={result.items}
            keyOf={({ item, before, after }) => `${item} ${before} ${after}`}
          />
        )}
      </Panel>
      <Panel title="By builder" flush>
        <RowsTable
          caption="By builder"
          columns={namedColumns('Builder')}
          rows={result.builders}
          keyOf={keyOf}
        />
      </Panel>
      <Panel title="By rater" flush>
        <RowsTable caption="By rater" columns={namedColumns('Rater')} rows={result.raters} keyOf={keyOf} />
      </Panel>
    </>
  );
}
