import { visits } from '@countercheck/contracts';
import { Tag } from '../../components/marks/index.ts';
import { Moment, Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { showTime } from '../../lib/dates.ts';
import { useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { visitTitles } from '../../lib/words/work.ts';

/** When somebody comes to the house next, and what became of the last time. */
export function HouseVisits({ houseId }: { houseId: string }) {
  const zone = useMe().company.timezone;
  const query = useRoute(visits.list, { query: { houseId, pageSize: 100 } });
  return (
    <Panel title="Visits">
      <Asked query={query}>
        {({ items }) => {
          const shown = items
            .filter(({ state }) => state !== 'cancelled')
            .toSorted((a, b) => b.startsAt.localeCompare(a.startsAt));
          if (shown.length === 0) return <Empty title="No visit is booked yet" />;
          return (
            <ul className="card-list">
              {shown.map((visit) => (
                <li key={visit.id} className="card-head">
                  <span>
                    <Moment at={visit.startsAt} />–{showTime(visit.endsAt, zone)}, {visitTitles[visit.kind]}
                    {visit.cause && <span className="soft">: {visit.cause}</span>}
                  </span>
                  {visit.state === 'booked' && <Tag tone="brass">Upcoming</Tag>}
                  {visit.state === 'in_progress' && <Tag tone="brass">Under way</Tag>}
                  {visit.state === 'submitted' && <Tag tone="good">Done</Tag>}
                  {visit.state === 'not_ready' && <Tag tone="bad">House was not ready</Tag>}
                </li>
              ))}
            </ul>
          );
        }}
      </Asked>
    </Panel>
  );
}
