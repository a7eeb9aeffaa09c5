import {
  format,
  plainNumber,
  quantities,
  tableDoubts,
  tableFlow,
  tableProblem,
  toDisplay,
} from '@countercheck/measurement';
import type { TablePoint } from '@countercheck/measurement';
import { useState } from 'react';
import { Chart, Line, logReach, logScale, Points } from '../../../components/charts/index.ts';
import { RowsTable, type Column } from '../../../components/table/index.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';

const steps = 48;

/** A maker's table, drawn as the curve that readings are taken from, with its rows beside it. */
export function FlowTable({ range, table }: { range: string; table: readonly TablePoint[] }) {
  const rows = [...table].sort((a, b) => a.pressure - b.pressure);
  const doubts = tableDoubts(table);
  const system = useUnitSystem();
  const columns: Column<TablePoint>[] = [
    { title: 'Pressure (Pa)', head: true, cell: (row) => plainNumber(row.pressure) },
    {
      title: `Flow (${quantities.airflow[system].label})`,
      figure: true,
      // as it was entered, not as a reading is rounded
      cell: (row) => plainNumber(toDisplay('airflow', row.flow, system)),
    },
  ];
  return (
    <div className="flow-table">
      <FlowChart
        range={range}
        rows={rows}
        doubted={doubts.flatMap((each) => each.rows.map((row) => table[row - 1]))}
      />
      <div className="stack">
        <RowsTable
          caption={`Table of range ${range}`}
          columns={columns}
          rows={rows}
          keyOf={(row) => String(row.pressure)}
        />
        {doubts.map(({ words }) => (
          <p key={words} className="flow-table-doubt">
            {words}
          </p>
        ))}
      </div>
    </div>
  );
}

interface FlowChartProps {
  range: string;
  rows: readonly TablePoint[];
  doubted: readonly (TablePoint | undefined)[];
}

function FlowChart({ range, rows, doubted }: FlowChartProps) {
  const system = useUnitSystem();
  const [words, setWords] = useState<string | null>(null);
  const shown = (flow: number) => toDisplay('airflow', flow, system);
  const xReach = logReach(rows.map(({ pressure }) => pressure));
  const yReach = logReach(rows.map(({ flow }) => shown(flow)));
  if (!xReach || !yReach || tableProblem(rows)) return null;
  const [low, high] = [rows[0]?.pressure ?? NaN, rows.at(-1)?.pressure ?? NaN];
  const curve = Array.from({ length: steps + 1 }, (_, i) => low * (high / low) ** (i / steps)).flatMap(
    (pressure) => {
      const read = tableFlow(rows, Math.min(pressure, high));
      return read.ok ? [[pressure, shown(read.value.flow)] as const] : [];
    },
  );
  return (
    <figure className="chart-figure">
      <Chart
        label={`Flow against pressure on range ${range}, ${rows.length} rows`}
        x={{ label: 'Pressure (Pa)', scale: (span) => logScale(...xReach, span), show: String }}
        y={{
          label: `Flow (${quantities.airflow[system].label})`,
          scale: (span) => logScale(...yReach, span),
          show: String,
        }}
      >
        {(frame) => (
          <>
            <Line frame={frame} places={curve} />
            <Points
              frame={frame}
              onLook={setWords}
              points={rows.map((row) => ({
                key: String(row.pressure),
                x: row.pressure,
                y: shown(row.flow),
                bad: doubted.includes(row),
                words: `${format('airflow', row.flow, system)} at ${format('pressureDifference', row.pressure, system)}`,
              }))}
            />
          </>
        )}
      </Chart>
      <figcaption className="chart-readout soft" aria-hidden="true">
        {words ?? 'Readings between the rows are taken from the line; outside it nothing is read.'}
      </figcaption>
    </figure>
  );
}
