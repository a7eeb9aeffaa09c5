import { Button } from '@mantine/core';
import type { Community } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { Dialog } from '../../components/feedback/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Empty } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { CommunityForm } from './community-form.tsx';
import type { BuilderPanelProps } from './panel-props.ts';

export function CommunitiesPanel({ builder, keeper }: BuilderPanelProps) {
  const [open, setOpen] = useState<Community | 'new' | null>(null);
  const close = () => setOpen(null);
  const columns: Column<Community>[] = [
    { title: 'Community', head: true, cell: (row) => row.name },
    { title: 'Jurisdiction', cell: (row) => row.jurisdiction ?? '–' },
    { title: 'Climate zone', cell: (row) => row.climateZone },
    {
      title: 'Houses',
      figure: true,
      cell: (row) => (
        <Link
          to="/houses"
          search={{ communityId: row.id, builderId: builder.id }}
          aria-label={`${row.houses} houses in ${row.name}`}
        >
          {row.houses}
        </Link>
      ),
    },
  ];
  if (keeper) {
    columns.push({
      title: 'Actions',
      cell: (row) => (
        <Button
          size="compact-sm"
          variant="subtle"
          onClick={() => setOpen(row)}
          aria-label={`Change ${row.name}`}
        >
          Change
        </Button>
      ),
    });
  }
  return (
    <Panel
      title="Communities"
      flush
      actions={
        keeper && (
          <Button size="xs" variant="default" onClick={() => setOpen('new')}>
            Add a community
          </Button>
        )
      }
    >
      {builder.communityList.length === 0 ? (
        <Empty title="No community yet">A house is registered in a community.</Empty>
      ) : (
        <RowsTable
          caption="Communities"
          columns={columns}
          rows={builder.communityList}
          keyOf={(row) => row.id}
        />
      )}
      {open && (
        <Dialog title={open === 'new' ? 'Add a community' : `Change ${open.name}`} onClose={close}>
          <CommunityForm
            builderId={builder.id}
            {...(open === 'new' ? {} : { community: open })}
            onDone={close}
          />
        </Dialog>
      )}
    </Panel>
  );
}
