import { administration } from '@countercheck/contracts';
import { EventTable } from '../../components/events/index.ts';
import { Page } from '../../components/page/index.ts';
import { SearchFilter } from '../../components/table/index.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';

export default function EventsPage() {
  const { values, page } = useListSearch();
  const query = useRoute(
    administration.events,
    { query: { page, action: values.action, houseId: values.houseId, actorId: values.actorId } },
    { keepPrevious: true },
  );
  return (
    <Page title="Events" lead="What was done in the company, by whom. Nothing here can be changed.">
      <EventTable query={query} filters={<SearchFilter label="Action" name="action" />} />
    </Page>
  );
}
