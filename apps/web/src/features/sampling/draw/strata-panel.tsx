import type { Draw } from '@countercheck/contracts';
import { Panel } from '../../../components/page/index.ts';
import { RowsTable, type Column } from '../../../components/table/index.ts';
import { visitKindWords } from '../../../lib/words/work.ts';

type Stratum = NonNullable<NonNullable<Draw['result']>['strata']>[number];

const columns: Column<Stratum>[] = [
  { title: 'Rater', head: true, cell: (row) => row.rater },
  { title: 'Builder', cell: (row) => row.builder },
  { title: 'Visit kind', cell: (row) => visitKindWords[row.kind] },
  { title: 'Files', figure: true, cell: (row) => row.population },
  { title: 'Drawn', figure: true, cell: (row) => row.sample },
];

export function StrataPanel({ strata }: { strata: readonly Stratum[] }) {
  return (
    <Panel title="Strata" flush>
      <RowsTable
        caption="Files and drawn ones by rater, builder and visit kind"
        columns={columns}
        rows={strata}
        keyOf={({ rater, builder, kind }) => `${rater} ${builder} ${kind}`}
      />
    </Panel>
  );
}
