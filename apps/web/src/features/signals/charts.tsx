import type { ControlChart } from '@countercheck/contracts';
import { Moment, Panel } from '../../components/page/index.ts';
import { Empty } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { Drawing } from './drawing.tsx';
import { itemWords } from './words.ts';

const tableRows = 60;

/** The charts of one item's readings with their limits, and the same as a table. */
export function Charts({ chart: { points, limits, outside, name, item } }: { chart: ControlChart }) {
  if (points.length === 0)
    return <Empty title={`No reading of ${name} has a reported figure beside it: ${itemWords[item]}`} />;
  const l = limits;
  return (
    <>
      <Panel title={`${name}: ${itemWords[item]}`}>
        {l === null && <p className="soft">Too few readings for limits; three that differ are needed.</p>}
        {l !== null &&
          (outside.length === 0 ? (
            <p>Everything lies within its limits.</p>
          ) : (
            <ul>
              {outside.map((words) => (
                <li key={words}>{words}</li>
              ))}
            </ul>
          ))}
        <Drawing
          title="Reading less reported, with limits at three standard deviations"
          unit="% of reported"
          points={points}
          lines={[{ of: (point) => point.value, dots: true }]}
          rules={l ? [l.mean, l.upper, l.lower] : [0]}
          outside={(value) => l !== null && (value > l.upper || value < l.lower)}
        />
        <Drawing
          title="Step from one reading to the next, with its upper limit"
          unit="Points"
          points={points}
          lines={[{ of: (point) => point.range, dots: true }]}
          rules={l ? [l.upperRange] : []}
          outside={(value) => l !== null && value > l.upperRange}
        />
      </Panel>
      {l && (
        <Panel title="Small lasting shifts">
          <Drawing
            title="Weighted mean of the readings so far, with its limits"
            unit="% of reported"
            points={points}
            lines={[{ of: (point) => point.ewma, dots: true }]}
            rules={[l.mean, l.ewmaUpper, l.ewmaLower]}
            outside={(value) => value > l.ewmaUpper || value < l.ewmaLower}
          />
          <Drawing
            title="Cumulative sums above (dots) and below the mean, with the decision limit"
            unit="Points"
            points={points}
            lines={[{ of: (point) => point.high, dots: true }, { of: (point) => point.low }]}
            rules={[l.decision]}
            outside={(value) => value > l.decision}
          />
        </Panel>
      )}
      <Panel title="The newest readings">
        <div className="evidence-table" role="region" aria-label="The newest readings" tabIndex={0}>
          <RowsTable
            caption="The newest readings"
            rows={points.slice(-tableRows).reverse()}
            keyOf={(point) => point.readingId}
            columns={[
              { title: 'House', head: true, cell: (point) => point.address },
              { title: 'Taken', cell: (point) => <Moment at={point.at} /> },
              { title: 'Less reported, %', figure: true, cell: (point) => point.value.toFixed(2) },
              { title: 'Step', figure: true, cell: (point) => point.range?.toFixed(2) ?? '–' },
              { title: 'Weighted mean', figure: true, cell: (point) => point.ewma.toFixed(2) },
              { title: 'Sum above', figure: true, cell: (point) => point.high.toFixed(2) },
              { title: 'Sum below', figure: true, cell: (point) => point.low.toFixed(2) },
            ]}
          />
        </div>
      </Panel>
    </>
  );
}
