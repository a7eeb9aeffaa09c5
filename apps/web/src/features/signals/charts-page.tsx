import {
  chartItems,
  chartSubjects,
  installers,
  instruments,
  signals,
  visits,
  type ControlChart,
} from '@countercheck/contracts';
import { useState } from 'react';
import { Chart, Line, linearScale, Points, Rule } from '../../components/charts/index.ts';
import { Choice, optionsOf, SearchChoice } from '../../components/fields/index.ts';
import { Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import './signals.css';
import { itemWords } from './words.ts';

const subjectWords = { rater: 'A rater', installer: 'An installer', instrument: 'An instrument' };
const tableRows = 60;

function useInstallersFound(search: string) {
  const { data } = useRoute(installers.list, { query: { search, pageSize: 20 } }, { keepPrevious: true });
  return (data?.items ?? []).map(({ id, name, companyName }) => ({
    value: id,
    label: `${name}, ${companyName}`,
  }));
}
function useInstrumentsFound(search: string) {
  const { data } = useRoute(instruments.list, { query: { search, pageSize: 20 } }, { keepPrevious: true });
  return (data?.items ?? []).map(({ id, label, serial }) => ({ value: id, label: `${label}, ${serial}` }));
}

function WhoseChoice({
  subject,
  value,
  onChange,
}: {
  subject: (typeof chartSubjects)[number];
  value: string | null;
  onChange: (id: string | null) => void;
}) {
  const raters = useRoute(visits.raters, {});
  if (subject === 'rater')
    return (
      <Choice
        label="Rater"
        none="Choose a rater"
        options={(raters.data ?? []).map(({ id, name }) => ({ value: id, label: name }))}
        value={value}
        onChange={onChange}
      />
    );
  return (
    <SearchChoice
      key={subject}
      label={subject === 'installer' ? 'Installer' : 'Instrument'}
      placeholder={subject === 'installer' ? 'Name or company' : 'Label or serial number'}
      useFound={subject === 'installer' ? useInstallersFound : useInstrumentsFound}
      value={value}
      onChange={onChange}
    />
  );
}

interface DrawingProps {
  title: string;
  /** the unit of the upright axis */
  unit: string;
  points: ControlChart['points'];
  lines: { of: (point: ControlChart['points'][number]) => number | null; dots?: boolean }[];
  rules: number[];
  outside: (value: number) => boolean;
}

function Drawing({ title, unit, points, lines, rules, outside }: DrawingProps) {
  const [words, setWords] = useState<string | null>(null);
  const values = points.flatMap((point) => lines.flatMap(({ of }) => of(point) ?? []));
  const [low, high] = [Math.min(0, ...values, ...rules), Math.max(0.1, ...values, ...rules)];
  const room = (high - low) * 0.06;
  const placesOf = (of: DrawingProps['lines'][number]['of']) =>
    points.flatMap((point, i) => {
      const value = of(point);
      return value === null ? [] : [[i + 1, value] as const];
    });
  const dotted = lines.find(({ dots }) => dots)?.of;
  return (
    <figure className="chart-figure">
      <Chart
        label={`${title}, ${points.length} readings; the table tells the same`}
        shape={0.42}
        x={{
          label: 'Reading, the oldest first',
          scale: (span) => linearScale(0, points.length + 1, span),
          show: String,
        }}
        y={{ label: unit, scale: (span) => linearScale(low - room, high + room, span), show: String }}
      >
        {(frame) => (
          <>
            {rules.map((at) => (
              <Rule key={at} frame={frame} at={at} along="y" />
            ))}
            {lines.map(({ of }, i) => (
              <Line key={i} frame={frame} places={placesOf(of)} />
            ))}
            {dotted && (
              <Points
                frame={frame}
                onLook={setWords}
                points={points.flatMap((point, i) => {
                  const value = dotted(point);
                  if (value === null) return [];
                  const bad = outside(value);
                  return [
                    {
                      ...{ key: point.readingId, x: i + 1, y: value, bad },
                      words: `${point.address}, ${point.at.slice(0, 10)}: ${value.toFixed(2)}${bad ? ', outside the limits' : ''}`,
                    },
                  ];
                })}
              />
            )}
          </>
        )}
      </Chart>
      <figcaption className="chart-readout soft">{words ?? title}</figcaption>
    </figure>
  );
}

function Charts({ chart: { points, limits, outside, name, item } }: { chart: ControlChart }) {
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

/** How the readings of a rater, of an installer's houses or of an instrument run over time. */
export default function ChartsPage() {
  const { values, change } = useListSearch();
  const subject = oneOf(chartSubjects, values['subject']) ?? 'rater';
  const item = oneOf(chartItems, values['item']) ?? 'supply-static';
  const id = values['id'] ?? null;
  const query = useRoute(
    signals.chart,
    { query: { subject, item, id: id ?? '' } },
    { keepPrevious: true, enabled: id !== null },
  );
  return (
    <Page
      title="Control charts"
      back={{ to: '/signals', label: 'Signals' }}
      lead="Readings against what was reported for the same houses, in the order in which they were taken."
    >
      <div className="filters" role="search" aria-label="What is charted">
        <Choice
          label="Chart of"
          options={optionsOf(subjectWords)}
          value={subject}
          onChange={(next) => change({ subject: next, id: null })}
        />
        <WhoseChoice subject={subject} value={id} onChange={(next) => change({ id: next })} />
        <Choice
          label="Item"
          options={optionsOf(itemWords)}
          value={item}
          onChange={(next) => change({ item: next })}
        />
      </div>
      {id === null ? (
        <Empty title={`Choose ${subjectWords[subject].toLowerCase()} to see how the readings run`} />
      ) : (
        <Asked query={query}>{(chart) => <Charts chart={chart} />}</Asked>
      )}
    </Page>
  );
}
