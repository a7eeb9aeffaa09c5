import type { Community } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import type { Column } from '../../components/table/index.ts';
import { CommunityForm } from './community-form.tsx';
import { KeptPanel } from './kept-panel.tsx';
import type { BuilderPanelProps } from './panel-props.ts';

export function CommunitiesPanel({ builder, keeper }: BuilderPanelProps) {
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
  return (
    <KeptPanel
      title="Communities"
      one="community"
      rows={builder.communityList}
      columns={columns}
      keeper={keeper}
      purpose="A house is registered in a community."
      form={(community, close) => (
        <CommunityForm builderId={builder.id} community={community} onDone={close} />
      )}
    />
  );
}
