import type { SignalFinding } from '@countercheck/contracts';
import { Chart, linearScale } from '../../components/charts/index.ts';
import { RowsTable } from '../../components/table/index.ts';

type Evidence = SignalFinding['evidence'];

const figure = (cell: string | number | null | undefined) => (typeof cell === 'number' ? cell : 0);

/** The second column, and the third where there is one, beside each other for every row. */
function Bars({ evidence: { columns, rows, xLabel, yLabel } }: { evidence: Evidence }) {
  const most = Math.max(1, ...rows.flatMap((row) => [figure(row[1]), figure(row[2])])) * 1.1;
  return (
    <Chart
      label={`${yLabel} by ${xLabel.toLowerCase()}; the table tells the same`}
      x={{
        label: xLabel,
        scale: (span) => ({ ...linearScale(0, rows.length, span), ticks: [] }),
        show: String,
      }}
      y={{ label: yLabel, scale: (span) => linearScale(0, most, span), show: String }}
    >
      {({ x, y, bottom }) => (
        <g aria-hidden="true">
          {rows.map((row, i) => {
            const [left, right] = [x.at(i + 0.15), x.at(i + 0.85)];
            const top = y.at(figure(row[1]));
            const mark = columns.length > 2 ? y.at(figure(row[2])) : null;
            return (
              <g key={i}>
                <rect className="evidence-bar" x={left} width={right - left} y={top} height={bottom - top} />
                {mark !== null && <path className="chart-rule" d={`M${left} ${mark}H${right}`} />}
                {rows.length <= 12 && (
                  <text x={(left + right) / 2} y={bottom + 14} textAnchor="middle">
                    {String(row[0]).length > 3 ? i + 1 : row[0]}
                  </text>
                )}
              </g>
            );
          })}
        </g>
      )}
    </Chart>
  );
}

/** What the test looked at: drawn, and in a table. */
export function EvidenceView({ evidence }: { evidence: Evidence }) {
  const { kind, columns, rows } = evidence;
  if (rows.length === 0) return null;
  const numbered = kind === 'bars' && rows.some((row) => String(row[0]).length > 3);
  return (
    <div className="evidence">
      {kind === 'bars' && (
        <figure className="chart-figure">
          <Bars evidence={evidence} />
          {columns.length > 2 && (
            <figcaption className="soft small">Dashed: {columns[2]?.toLowerCase()}.</figcaption>
          )}
        </figure>
      )}
      <div className="evidence-table" role="region" aria-label="What the test looked at" tabIndex={0}>
        <RowsTable
          caption="What the test looked at"
          rows={rows.map((row, place) => ({ row, place }))}
          keyOf={({ place }) => String(place)}
          columns={columns.map((title, i) => ({
            title,
            head: i === 0,
            figure: i > 0 && rows.every((row) => typeof row[i] !== 'string'),
            cell: ({ row, place }) =>
              i === 0 && numbered ? `${place + 1}. ${String(row[i])}` : (row[i] ?? '–'),
          }))}
        />
      </div>
    </div>
  );
}
