import { houses } from '@countercheck/contracts';
import { EventTable } from '../../../components/events/index.ts';
import { Panel } from '../../../components/page/index.ts';
import { useListSearch } from '../../../lib/list-search.ts';
import { useRoute } from '../../../lib/query.ts';

export function EventsPanel({ houseId }: { houseId: string }) {
  const { page } = useListSearch();
  const query = useRoute(
    houses.events,
    { params: { id: houseId }, query: { page, pageSize: 15 } },
    { keepPrevious: true },
  );
  return (
    <Panel title="What happened">
      <EventTable query={query} />
    </Panel>
  );
}
