import { sampling, type DrawSummary } from '@countercheck/contracts';
import { Link, useNavigate } from '@tanstack/react-router';
import { DialogButton } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { Moment, Page } from '../../components/page/index.ts';
import { DataTable, type Column } from '../../components/table/index.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { PublishForm } from './draw/publish-form.tsx';
import { methodWords, purposeWords, sizeText, stepWords } from './words.ts';

const count = (value: number | null) => value?.toLocaleString('en-US') ?? '–';

const columns: Column<DrawSummary>[] = [
  { title: 'Draw', head: true, cell: (row) => <Link to={`/draws/${row.id}`}>{row.title}</Link> },
  { title: 'For', cell: (row) => purposeWords[row.purpose] },
  { title: 'Method', cell: (row) => methodWords[row.method] },
  { title: 'Size', cell: (row) => sizeText(row.size) },
  { title: 'Published', cell: (row) => <Moment at={row.committedAt} /> },
  { title: 'Population', figure: true, cell: (row) => count(row.population) },
  { title: 'Drawn', figure: true, cell: (row) => count(row.drawn) },
  {
    title: 'Step',
    cell: (row) => <Tag tone={row.step === 'ordered' ? 'good' : 'brass'}>{stepWords[row.step]}</Tag>,
  },
];

export default function DrawsPage() {
  const { page } = useListSearch();
  const query = useRoute(sampling.draws, { query: { page } }, { keepPrevious: true });
  const navigate = useNavigate();
  const mayDraw = useRole('quality');
  return (
    <Page
      title="Draws"
      lead="Which files and houses are looked at again, by a draw that anybody can repeat."
      actions={
        mayDraw && (
          <DialogButton label="Start a draw">
            {(close) => (
              <PublishForm onCancel={close} onDone={({ id }) => void navigate({ to: `/draws/${id}` })} />
            )}
          </DialogButton>
        )
      }
    >
      <DataTable
        caption="Draws"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        empty="Nothing was drawn yet"
      />
    </Page>
  );
}
