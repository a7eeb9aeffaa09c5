import { failedBoard, type WaitingTimes } from '@countercheck/contracts';
import { FactList, Panel, type Fact } from '../../../components/page/index.ts';
import { Asked, Empty } from '../../../components/states/index.ts';
import { RowsTable, type Column } from '../../../components/table/index.ts';
import { useRoute } from '../../../lib/query.ts';
import type { BoardFilter } from './filter.ts';
import { percent } from './percent.ts';
import { WaitingChart } from './waiting-chart.tsx';

type Step = WaitingTimes['curve'][number];

const columns: Column<Step>[] = [
  { title: 'Days', figure: true, head: true, cell: ({ days }) => days },
  { title: 'Watched so far', figure: true, cell: ({ atRisk }) => atRisk },
  { title: 'Looked at again', figure: true, cell: ({ lookedAtAgain }) => lookedAtAgain },
  { title: 'Still open', figure: true, cell: ({ censored }) => censored },
  { title: 'Still waiting', figure: true, cell: ({ waiting }) => percent(waiting) },
  { title: '95 % interval', figure: true, cell: ({ low, high }) => `${percent(low)} – ${percent(high)}` },
];
const names: Record<string, string> = {
  '0.25': 'A quarter within',
  '0.5': 'Half within (median)',
  '0.75': 'Three quarters within',
  '0.9': 'Nine of ten within',
};

/** How long failed items wait until they are looked at again; what is still open counts too. */
export function WaitingPart({ filter }: { filter: BoardFilter }) {
  const query = useRoute(failedBoard.waiting, { query: filter }, { keepPrevious: true });
  return (
    <Asked query={query}>
      {({ items, lookedAtAgain, stillWaiting, quantiles, curve }) =>
        items === 0 ? (
          <Empty title="Nothing failed in this time" />
        ) : (
          <>
            <Panel title="Days from the failure to the next look">
              <FactList
                facts={[
                  ['Failed', items],
                  ['Looked at again', lookedAtAgain],
                  ['Still waiting', stillWaiting],
                  ...quantiles.map(({ share, days }): Fact => [
                    names[String(share)] ?? percent(share),
                    days === null ? 'not reached yet' : `${days} days`,
                  ]),
                ]}
              />
              <WaitingChart curve={curve} />
              <p className="small soft">
                What is open still counts with the days it has waited (Kaplan-Meier), since leaving it out
                would make the waits look shorter. The band is the 95 % interval (Greenwood).
              </p>
            </Panel>
            <details className="panel board-steps">
              <summary>The curve in figures</summary>
              <RowsTable
                caption="Share still waiting by days"
                columns={columns}
                rows={curve}
                keyOf={({ days }) => String(days)}
              />
            </details>
          </>
        )
      }
    </Asked>
  );
}
