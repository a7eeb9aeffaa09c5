import { service } from '@countercheck/contracts';
import { Page } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { StagesPanel } from './stages-panel.tsx';
import { WaitingPanel } from './waiting-panel.tsx';

export default function OverviewPage() {
  const me = useMe();
  const overview = useRoute(service.overview, {}, { refetchInterval: 60_000 });
  return (
    <Page title="Overview" lead={me.builder?.name ?? me.company.name}>
      <Asked query={overview}>
        {(counts) => (
          <div className="columns">
            <WaitingPanel counts={counts} />
            <StagesPanel stages={counts.stages} />
          </div>
        )}
      </Asked>
    </Page>
  );
}
