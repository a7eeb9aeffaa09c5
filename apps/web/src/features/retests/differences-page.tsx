import { Button } from '@mantine/core';
import { retests, type Differences } from '@countercheck/contracts';
import { format, testOutlines, testKeys, type QuantityKind } from '@countercheck/measurement';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { Chart, Dots, evenReach, linearScale, Points, Rule } from '../../components/charts/index.ts';
import { RaterChoice } from '../../components/choosers/index.ts';
import { Choice, Quantity } from '../../components/fields/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { showDay } from '../../lib/dates.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { useUnitSystem } from '../../lib/units/unit-system.ts';

const tests = testKeys.map((key) => ({ value: key, label: testOutlines[key].title }));

/** How far second measurements lie from the first ones, over time, of one test and of one rater or all. */
export default function DifferencesPage() {
  const { values, change } = useListSearch();
  const test = oneOf(testKeys, values.test) ?? 'duct-leakage-total';
  const query = useRoute(
    retests.differences,
    { query: { test, raterId: values.raterId } },
    { keepPrevious: true },
  );
  const series = query.data ?? [];
  // One value at a time: what a test gives besides is seldom asked for, and each has a drawing and a table.
  const shown = series.find(({ label }) => label === values.value) ?? series[0];
  return (
    <Page
      title="Differences between raters"
      back={{ to: '/retests', label: 'Re-tests' }}
      lead="Second measurement less first. Points that wander to one side tell of a habit; one cross tells of one house."
    >
      <div className="filters" role="search" aria-label="Filter: differences">
        <Choice
          label="Test"
          options={tests}
          value={test}
          onChange={(next) => change({ test: next, value: null })}
        />
        {series.length > 1 && (
          <Choice
            label="Value"
            options={series.map(({ label }) => ({ value: label, label }))}
            value={shown?.label ?? null}
            onChange={(value) => change({ value })}
          />
        )}
        <RaterChoice
          label="Measured first by"
          value={values.raterId ?? null}
          onChange={(raterId) => change({ raterId })}
        />
      </div>
      <Asked query={query}>
        {() =>
          shown ? (
            <Series key={shown.label} series={shown} />
          ) : (
            <Empty title="This test was not measured twice yet" />
          )
        }
      </Asked>
    </Page>
  );
}

/** Points that can be walked through one by one; older ones are drawn as plain dots. */
const mostWalked = 30;
const rowsAtOnce = 20;

function Series({ series }: { series: Differences }) {
  const { points, limits, label } = series;
  const [rows, setRows] = useState(rowsAtOnce);
  const [older, newer] = [points.slice(0, -mostWalked), points.slice(-mostWalked)];
  const kind = series.quantity as QuantityKind;
  const zone = useMe().company.timezone;
  const system = useUnitSystem();
  const [words, setWords] = useState<string | null>(null);
  const times = points.map(({ at }) => Date.parse(at));
  const day = 86_400_000;
  const [from, to] = [Math.min(...times) - day, Math.max(...times) + day];
  const reach = evenReach(
    [
      ...points.flatMap(({ difference, allowed }) => [difference, allowed]),
      limits?.low ?? 0,
      limits?.high ?? 0,
    ],
    1e-6,
  );
  const show = (value: number) => format(kind, value, system);
  return (
    <Panel title={label}>
      <figure className="chart-figure">
        <Chart
          label={`${label}: ${points.length} differences over time`}
          shape={0.42}
          x={{
            label: 'Second measurement',
            scale: (span) => dateScale(from, to, span),
            show: (tick) => showDay(new Date(tick).toISOString(), zone),
          }}
          y={{ label: 'Second less first', scale: (span) => linearScale(...reach, span, 5), show }}
        >
          {(frame) => (
            <>
              <Rule frame={frame} at={0} along="y" />
              {limits && <Rule frame={frame} at={limits.mean} along="y" />}
              {limits && limits.low !== null && <Rule frame={frame} at={limits.low} along="y" />}
              {limits && limits.high !== null && <Rule frame={frame} at={limits.high} along="y" />}
              <Dots
                frame={frame}
                places={older.map(({ at, difference }) => [Date.parse(at), difference] as const)}
              />
              <Points
                frame={frame}
                onLook={setWords}
                points={newer.map((point) => ({
                  key: `${point.retestId}/${point.first}`,
                  x: Date.parse(point.at),
                  y: point.difference,
                  bad: !point.agrees,
                  words: `${showDay(point.at, zone)}, ${point.address}, first by ${point.rater.name}: ${show(point.first)}, then ${show(point.second)}; difference ${show(point.difference)}, allowed ${show(point.allowed)}`,
                }))}
              />
            </>
          )}
        </Chart>
        <figcaption className="chart-readout soft" aria-hidden="true">
          {words ??
            (older.length > 0 && `The newest ${newer.length} say their figures; older ones are dots.`)}
        </figcaption>
      </figure>
      {limits && (
        <p>
          Mean difference {show(limits.mean)} over {limits.count} {limits.count === 1 ? 'pair' : 'pairs'}
          {limits.low !== null && limits.high !== null
            ? `; about 95 % of differences lie between ${show(limits.low)} and ${show(limits.high)} (mean ± 1.96 standard deviations).`
            : '; one pair says nothing about the spread.'}
        </p>
      )}
      <RowsTable
        caption={`${label}: first and second measurement`}
        rows={points.slice(-rows).reverse()}
        keyOf={(row) => `${row.retestId}/${row.first}`}
        columns={[
          {
            title: 'House',
            head: true,
            cell: (row) => <Link to={`/retests/${row.retestId}`}>{row.address}</Link>,
          },
          { title: 'Second measured', cell: (row) => <Moment at={row.at} day /> },
          { title: 'First rater', cell: (row) => row.rater.name },
          { title: 'First', figure: true, cell: (row) => <Quantity kind={kind} value={row.first} /> },
          { title: 'Second', figure: true, cell: (row) => <Quantity kind={kind} value={row.second} /> },
          {
            title: 'Difference',
            figure: true,
            cell: (row) => <Quantity kind={kind} value={row.difference} />,
          },
          { title: 'Allowed', figure: true, cell: (row) => <Quantity kind={kind} value={row.allowed} /> },
          {
            title: 'Agree',
            cell: (row) => <Tag tone={row.agrees ? 'good' : 'bad'}>{row.agrees ? 'Yes' : 'No'}</Tag>,
          },
        ]}
      />
      {points.length > rows && (
        <p>
          The newest {rows} of {points.length}.{' '}
          <Button variant="default" size="xs" onClick={() => setRows(rows + rowsAtOnce)}>
            Show {Math.min(rowsAtOnce, points.length - rows)} more
          </Button>
        </p>
      )}
    </Panel>
  );
}

/** An axis of days: as many ticks as stand apart, each at a whole day. */
function dateScale(from: number, to: number, span: readonly [number, number]) {
  const plain = linearScale(from, to, span);
  const day = 86_400_000;
  const step = Math.max(1, Math.ceil((to - from) / day / 5)) * day;
  const ticks: number[] = [];
  for (let tick = Math.ceil(from / day) * day; tick <= to; tick += step) ticks.push(tick);
  return { ...plain, ticks };
}
