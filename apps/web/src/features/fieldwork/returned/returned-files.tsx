import type { HouseSummary } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Panel } from '../../../components/page/index.ts';
import { Asked } from '../../../components/states/index.ts';
import { useReturnedHouses, useVisitsAt } from '../data/sheet.ts';
import { Findings } from './findings.tsx';

function ReturnedHouse({ house }: { house: HouseSummary }) {
  const visits = useVisitsAt(house.id);
  const last = visits.data?.items.toSorted((a, b) => b.startsAt.localeCompare(a.startsAt))[0];
  return (
    <details className="fold fold-panel">
      <summary>
        <strong>{house.address}</strong>{' '}
        <span className="soft">
          {house.community.name}, lot {house.lot}
        </span>
      </summary>
      <div className="stack">
        {last && (
          <Link to={`/visits/${last.id}`} className="tap">
            Open the sheet
          </Link>
        )}
        <Findings house={house} />
      </div>
    </details>
  );
}

/** Files that the quality manager gave back, on top of the day's own work. */
export function ReturnedFiles() {
  const query = useReturnedHouses();
  return (
    <Asked query={query}>
      {({ items }) =>
        items.length === 0 ? null : (
          <Panel title={`Returned files (${items.length})`}>
            <div className="stack">
              {items.map((house) => (
                <ReturnedHouse key={house.id} house={house} />
              ))}
            </div>
          </Panel>
        )
      }
    </Asked>
  );
}
