import { failedItems, houses, type HouseDetail } from '@countercheck/contracts';
import { Stage } from '../../components/marks/index.ts';
import { FactList, Page, Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { FailedItemCard } from './failed-item-card.tsx';
import { HouseVisits } from './house-visits.tsx';
import { Reinspection } from './reinspection.tsx';
import { ReleasedResult } from './released-result.tsx';
import { VisitRequests } from './visit-requests.tsx';
import './builder-desk.css';

/** One house of the builder: what failed, what comes next, and the result. */
export default function HousePage() {
  const query = useRoute(houses.show, { params: { id: useParam('id') } });
  return <Asked query={query}>{(house) => <House house={house} />}</Asked>;
}

function House({ house }: { house: HouseDetail }) {
  const failed = useRoute(failedItems.list, { query: { houseId: house.id, pageSize: 100 } });
  const { counts } = house;
  return (
    <Page
      title={house.address}
      back={{ to: '/my-houses', label: 'My houses' }}
      lead={
        <>
          <Stage stage={house.stage} />
          <span>
            {house.community.name}, lot {house.lot}
          </span>
        </>
      }
    >
      {house.stage === 'released' && <ReleasedResult houseId={house.id} />}
      <Panel title="Failed items">
        <Asked query={failed}>
          {({ items }) =>
            items.length === 0 ? (
              <Empty title="Nothing has failed in this house" />
            ) : (
              <ul className="card-list">
                {items
                  .toSorted((a, b) => Number(a.state === 'closed') - Number(b.state === 'closed'))
                  .map((item) => (
                    <FailedItemCard key={item.id} item={item} />
                  ))}
              </ul>
            )
          }
        </Asked>
      </Panel>
      <VisitRequests house={house} />
      <Reinspection house={house} />
      <HouseVisits houseId={house.id} />
      <Panel title="Where the items stand">
        <FactList
          facts={[
            ['Pass', counts.pass],
            ['Exempt', counts.exempt],
            ['Fail', counts.fail],
            ['Waiting', counts.waiting],
            ['Not applicable', counts['not-applicable']],
          ]}
        />
      </Panel>
    </Page>
  );
}
