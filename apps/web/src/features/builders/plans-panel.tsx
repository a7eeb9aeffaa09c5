import type { Plan } from '@countercheck/contracts';
import { Quantity } from '../../components/fields/index.ts';
import { Tag } from '../../components/marks/index.ts';
import type { Column } from '../../components/table/index.ts';
import { KeptPanel } from './kept-panel.tsx';
import type { BuilderPanelProps } from './panel-props.ts';
import { PlanForm } from './plan-form.tsx';

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

export function PlansPanel({ builder, keeper }: BuilderPanelProps) {
  return (
    <KeptPanel
      title="Plans"
      one="plan"
      rows={builder.planList}
      columns={columns}
      keeper={keeper}
      purpose="A plan fills in a new house's figures and parts."
      wide
      form={(plan, close) => <PlanForm builderId={builder.id} plan={plan} onDone={close} />}
    />
  );
}
