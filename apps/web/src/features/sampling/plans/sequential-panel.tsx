import {
  sequentialPlan,
  sequentialRows,
  type SequentialPlan,
  type SequentialRow,
} from '@countercheck/sampling';
import { useState } from 'react';
import { Chart, Line, linearScale } from '../../../components/charts/index.ts';
import { FactList, Panel } from '../../../components/page/index.ts';
import { RowsTable, type Column } from '../../../components/table/index.ts';
import { attempt, NumberField } from './number-field.tsx';

const figure = (value: number) => value.toLocaleString('en-US', { maximumFractionDigits: 4 });

/** The two lines; between them one goes on. The table beside says the same. */
function Lines({ plan, most }: { plan: SequentialPlan; most: number }) {
  const { slope, acceptIntercept, rejectIntercept } = plan;
  const top = Math.ceil(slope * most + rejectIntercept) + 1;
  const line = (intercept: number) =>
    [
      [0, intercept],
      [most, slope * most + intercept],
    ] as const;
  return (
    <Chart
      label="Defective ones found against files looked at, with the line to accept and the line not to"
      x={{ label: 'Files looked at', scale: (span) => linearScale(0, most, span), show: String }}
      y={{ label: 'Defective ones found', scale: (span) => linearScale(0, top, span, 5), show: String }}
      shape={0.5}
    >
      {(frame) => (
        <>
          <Line frame={frame} places={line(-acceptIntercept)} />
          <Line frame={frame} places={line(rejectIntercept)} />
          <g aria-hidden="true">
            <text x={frame.left + 8} y={frame.top + 14}>
              do not accept
            </text>
            <text x={frame.right - 8} y={frame.bottom - 8} textAnchor="end">
              accept
            </text>
          </g>
        </>
      )}
    </Chart>
  );
}

const columns: Column<SequentialRow>[] = [
  { title: 'Files looked at', head: true, cell: (row) => row.sample },
  { title: 'Accept at most', figure: true, cell: (row) => row.acceptAt ?? 'not yet' },
  { title: 'Do not accept from', figure: true, cell: (row) => row.rejectAt ?? 'not yet' },
];

/** Only the files at which one of the two numbers changes. */
const turns = (rows: readonly SequentialRow[]) =>
  rows.filter((row, at) => {
    const before = rows[at - 1];
    return !before || before.acceptAt !== row.acceptAt || before.rejectAt !== row.rejectAt;
  });

/** Looking at one after the other until it is decided. */
export function SequentialPanel() {
  const [good, setGood] = useState<number | string>(1);
  const [bad, setBad] = useState<number | string>(6);
  const [alpha, setAlpha] = useState<number | string>(5);
  const [beta, setBeta] = useState<number | string>(10);
  const share = (value: number | string) => Number(value) / 100;
  const made = attempt(() =>
    sequentialPlan({ good: share(good), bad: share(bad), alpha: share(alpha), beta: share(beta) }),
  );
  return (
    <Panel title="One after the other (sequential plan)">
      <div className="stack">
        <div className="fields">
          <NumberField label="Good: % defective to accept" decimals={2} value={good} onChange={setGood} />
          <NumberField label="Bad: % defective not to accept" decimals={2} value={bad} onChange={setBad} />
          <NumberField
            label="Risk of not accepting the good, %"
            decimals={2}
            value={alpha}
            onChange={setAlpha}
          />
          <NumberField label="Risk of accepting the bad, %" decimals={2} value={beta} onChange={setBeta} />
        </div>
        {'problem' in made ? (
          <p role="status">{made.problem}</p>
        ) : (
          <>
            <FactList
              facts={[
                [
                  'Accept line',
                  `${figure(-made.value.acceptIntercept)} + ${figure(made.value.slope)} × files`,
                ],
                ['Other line', `${figure(made.value.rejectIntercept)} + ${figure(made.value.slope)} × files`],
                ['Can accept from', `${made.value.firstAcceptance} files without a defect`],
                ['Expected, if good', `about ${figure(Math.round(made.value.expectedAtGood))} files`],
                ['Expected, if bad', `about ${figure(Math.round(made.value.expectedAtBad))} files`],
              ]}
            />
            <div className="columns">
              <Lines plan={made.value} most={Math.min(400, made.value.firstAcceptance * 2)} />
              <RowsTable
                caption="Numbers of the sequential plan"
                columns={columns}
                rows={turns(sequentialRows(made.value, Math.min(400, made.value.firstAcceptance * 2)))}
                keyOf={({ sample }) => String(sample)}
              />
            </div>
          </>
        )}
        <p className="soft small">
          Wald’s probability ratio test (from memory). The risks are met approximately; together they are
          never above what is stated.
        </p>
      </div>
    </Panel>
  );
}
