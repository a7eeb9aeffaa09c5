import { quantities, toDisplay } from '@countercheck/measurement';
import { useUnitSystem } from '../../lib/units/unit-system.ts';
import { RowsTable } from '../table/index.ts';
import type { DrawnFit } from './drawn-fit.ts';

const signed = (share: number) => `${share < 0 ? '−' : '+'}${Math.abs(share * 100).toFixed(1)} %`;

/** The drawing's points as figures. */
export function PointsTable({ fit: { points } }: { fit: DrawnFit }) {
  const system = useUnitSystem();
  const { label, decimals } = quantities.airflow[system];
  return (
    <RowsTable
      caption="The points of the drawing"
      rows={points}
      keyOf={({ key }) => key}
      columns={[
        { title: 'Point', head: true, cell: (point) => point.label },
        { title: 'Pressure (Pa)', figure: true, cell: ({ pressure }) => pressure.toFixed(1) },
        {
          title: `Flow (${label})`,
          figure: true,
          cell: ({ flow }) => toDisplay('airflow', flow, system).toFixed(decimals),
        },
        {
          title: 'Off the line',
          figure: true,
          cell: ({ residual }) => (residual === null ? '–' : signed(residual)),
        },
        { title: 'Mark', cell: ({ problem }) => (problem ? 'Look again' : 'Good') },
      ]}
    />
  );
}
