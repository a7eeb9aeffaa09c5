import { visits } from '@countercheck/contracts';
import { VisitsTable } from '../../../components/booking/index.ts';
import { Panel } from '../../../components/page/index.ts';
import { Asked, Empty } from '../../../components/states/index.ts';
import { useRoute } from '../../../lib/query.ts';

export function VisitsPanel({ houseId }: { houseId: string }) {
  const query = useRoute(visits.list, { query: { houseId, pageSize: 50 } });
  return (
    <Panel title="Visits" flush>
      <Asked query={query}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No visit booked yet" />
          ) : (
            <VisitsTable caption="Visits to this house" visits={items} about="house" />
          )
        }
      </Asked>
    </Panel>
  );
}
