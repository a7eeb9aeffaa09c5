import { Button } from '@mantine/core';
import { installers, type Installer } from '@countercheck/contracts';
import { useState } from 'react';
import { Dialog } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { Page } from '../../components/page/index.ts';
import { DataTable, SearchFilter, type Column } from '../../components/table/index.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { tradeWords } from '../../lib/words/people.ts';
import { InstallerForm } from './installer-form.tsx';

export default function InstallersPage() {
  const { values, page } = useListSearch();
  const query = useRoute(installers.list, { query: { page, search: values.search } }, { keepPrevious: true });
  const keeper = useRole('office', 'administrator');
  const [open, setOpen] = useState<Installer | 'new' | null>(null);
  const close = () => setOpen(null);
  const columns: Column<Installer>[] = [
    {
      title: 'Name',
      head: true,
      cell: (row) => (
        <>
          {row.name} {!row.active && <Tag>Not active</Tag>}
        </>
      ),
    },
    { title: 'Company', cell: (row) => row.companyName },
    { title: 'Trade', cell: (row) => tradeWords[row.trade] ?? row.trade },
    { title: 'Email', cell: (row) => row.email ?? '–' },
    { title: 'Phone', cell: (row) => row.phone ?? '–' },
  ];
  if (keeper) {
    columns.push({
      title: 'Actions',
      cell: (row) => (
        <Button
          size="compact-sm"
          variant="subtle"
          aria-label={`Change ${row.name}`}
          onClick={() => setOpen(row)}
        >
          Change
        </Button>
      ),
    });
  }
  return (
    <Page
      title="Installers"
      actions={keeper && <Button onClick={() => setOpen('new')}>Register an installer</Button>}
    >
      <DataTable
        caption="Installers"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={<SearchFilter label="Name or company" />}
        empty="No installer found"
      />
      {open && (
        <Dialog title={open === 'new' ? 'Register an installer' : `Change ${open.name}`} onClose={close}>
          <InstallerForm {...(open === 'new' ? {} : { installer: open })} onDone={close} />
        </Dialog>
      )}
    </Page>
  );
}
