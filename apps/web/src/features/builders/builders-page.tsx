import { builders, type Builder } from '@countercheck/contracts';
import { Link, useNavigate } from '@tanstack/react-router';
import { DialogButton } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { Page } from '../../components/page/index.ts';
import { DataTable, SearchFilter, type Column } from '../../components/table/index.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { BuilderForm } from './builder-form.tsx';

const columns: Column<Builder>[] = [
  {
    title: 'Builder',
    head: true,
    cell: (row) => (
      <>
        <Link to={`/builders/${row.id}`}>{row.name}</Link> {!row.active && <Tag>Not active</Tag>}
      </>
    ),
  },
  { title: 'Phone', cell: (row) => row.phone ?? '–' },
  { title: 'Communities', figure: true, cell: (row) => row.communities },
  { title: 'Houses', figure: true, cell: (row) => row.houses },
  { title: 'Failed items open', figure: true, cell: (row) => row.openFailedItems },
];

export default function BuildersPage() {
  const { values, page } = useListSearch();
  const query = useRoute(builders.list, { query: { page, search: values.search } }, { keepPrevious: true });
  const keeper = useRole('office', 'administrator');
  const navigate = useNavigate();
  return (
    <Page
      title="Builders"
      actions={
        keeper && (
          <DialogButton label="Register a builder">
            {(close) => (
              <BuilderForm
                onCancel={close}
                onDone={(builder) => void navigate({ to: `/builders/${builder.id}` })}
              />
            )}
          </DialogButton>
        )
      }
    >
      <DataTable
        caption="Builders"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={<SearchFilter label="Name" />}
        empty="No builder found"
      />
    </Page>
  );
}
