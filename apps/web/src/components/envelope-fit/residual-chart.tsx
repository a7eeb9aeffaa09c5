import { format } from '@countercheck/measurement';
import { useState } from 'react';
import { useUnitSystem } from '../../lib/units/unit-system.ts';
import { Chart, evenReach, linearScale, logReach, logScale, Points, Rule } from '../charts/index.ts';
import type { DrawnFit } from './drawn-fit.ts';
import { pointWords } from './point-words.ts';

const leastPercent = 2;

/** How far each point lies from the line: what bends or jumps here is no noise. */
export function ResidualChart({ fit: { points } }: { fit: DrawnFit }) {
  const system = useUnitSystem();
  const [words, setWords] = useState<string | null>(null);
  const reach = logReach(points.map(({ pressure }) => pressure));
  if (!reach) return null;
  const tall = evenReach(
    points.map(({ residual }) => (residual ?? 0) * 100),
    leastPercent,
  );
  return (
    <figure className="chart-figure">
      <Chart
        label={`Distance of ${points.length} points from the line`}
        shape={0.38}
        x={{ label: 'Pressure (Pa)', scale: (span) => logScale(...reach, span), show: String }}
        y={{ label: 'Off the line (%)', scale: (span) => linearScale(...tall, span, 4), show: String }}
      >
        {(frame) => (
          <>
            <Rule frame={frame} at={0} along="y" />
            <Points
              frame={frame}
              onLook={setWords}
              points={points.map((point) => ({
                key: point.key,
                x: point.pressure,
                y: (point.residual ?? 0) * 100,
                bad: point.problem !== null,
                words: pointWords(point, format('airflow', point.flow, system)),
              }))}
            />
          </>
        )}
      </Chart>
      <figcaption className="chart-readout soft" aria-hidden="true">
        {words}
      </figcaption>
    </figure>
  );
}
