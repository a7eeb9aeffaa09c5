import { Button } from '@mantine/core';
import type { Plan } from '@countercheck/contracts';
import { useState } from 'react';
import { Dialog } from '../../components/feedback/index.ts';
import { Quantity } from '../../components/fields/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Empty } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import type { BuilderPanelProps } from './panel-props.ts';
import { PlanForm } from './plan-form.tsx';

export function PlansPanel({ builder, keeper }: BuilderPanelProps) {
  const [open, setOpen] = useState<Plan | 'new' | null>(null);
  const close = () => setOpen(null);
  const columns: Column<Plan>[] = [
    {
      title: 'Plan',
      head: true,
      cell: (row) => (
        <>
          {row.name} {!row.active && <Tag>Not offered</Tag>}
        </>
      ),
    },
    {
      title: 'Floor area',
      figure: true,
      cell: (row) => <Quantity kind="floorArea" value={row.conditionedFloorArea} />,
    },
    {
      title: 'Volume',
      figure: true,
      cell: (row) => <Quantity kind="volume" value={row.conditionedVolume} />,
    },
    { title: 'Bedrooms', figure: true, cell: (row) => row.bedrooms },
    { title: 'Systems', figure: true, cell: (row) => row.parts.systems.length },
    { title: 'Appliances', figure: true, cell: (row) => row.parts.appliances.length },
    { title: 'Houses', figure: true, cell: (row) => row.houses },
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
      title="Plans"
      flush
      actions={
        keeper && (
          <Button size="xs" variant="default" onClick={() => setOpen('new')}>
            Add a plan
          </Button>
        )
      }
    >
      {builder.planList.length === 0 ? (
        <Empty title="No plan yet">A plan fills in a new house's figures and parts.</Empty>
      ) : (
        <RowsTable caption="Plans" columns={columns} rows={builder.planList} keyOf={(row) => row.id} />
      )}
      {open && (
        <Dialog title={open === 'new' ? 'Add a plan' : `Change ${open.name}`} onClose={close} wide>
          <PlanForm builderId={builder.id} {...(open === 'new' ? {} : { plan: open })} onDone={close} />
        </Dialog>
      )}
    </Panel>
  );
}
