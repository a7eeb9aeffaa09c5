import { envelopeTarget, format, quantities, toDisplay } from '@countercheck/measurement';
import { useState } from 'react';
import { useUnitSystem } from '../../lib/units/unit-system.ts';
import { Band, Chart, Line, logReach, logScale, Points, Rule, Spread } from '../charts/index.ts';
import type { DrawnFit, DrawnLine } from './drawn-fit.ts';
import { pointWords } from './point-words.ts';

const steps = 24;

/** Flow against pressure, both logarithmic, so that the law of the leaks is a straight line. */
export function FitChart({ fit: { points, lines, atReference } }: { fit: DrawnFit }) {
  const system = useUnitSystem();
  const [words, setWords] = useState<string | null>(null);
  const { reference } = envelopeTarget;
  const shown = (flow: number) => toDisplay('airflow', flow, system);
  const xReach = logReach([...points.map(({ pressure }) => pressure), reference]);
  const ends = [atReference?.value, atReference?.low, atReference?.high].map((flow) => flow ?? 0);
  const yReach = logReach([...points.map(({ flow }) => flow), ...ends].map(shown));
  if (!xReach || !yReach) return null;
  const [low, high] = xReach;
  const along = Array.from({ length: steps + 1 }, (_, i) => low * (high / low) ** (i / steps));
  const places = (line: DrawnLine, side: 'value' | 'low' | 'high') =>
    along.flatMap((pressure) => {
      const flow = line.at(pressure)[side];
      return flow === null ? [] : [[pressure, shown(flow)] as const];
    });
  return (
    <figure className="chart-figure">
      <Chart
        label={`Flow against pressure, ${points.length} points`}
        x={{ label: 'Pressure (Pa)', scale: (span) => logScale(...xReach, span), show: String }}
        y={{
          label: `Flow (${quantities.airflow[system].label})`,
          scale: (span) => logScale(...yReach, span),
          show: String,
        }}
      >
        {(frame) => (
          <>
            {lines.map((line, i) => (
              <Band key={i} frame={frame} low={places(line, 'low')} high={places(line, 'high')} />
            ))}
            <Rule frame={frame} at={reference} along="x" words={`${reference} Pa`} />
            {lines.map((line, i) => (
              <Line key={i} frame={frame} places={places(line, 'value')} />
            ))}
            {atReference && (
              <Spread
                frame={frame}
                at={reference}
                value={shown(atReference.value)}
                low={shown(atReference.low ?? atReference.value)}
                high={shown(atReference.high ?? atReference.value)}
              />
            )}
            <Points
              frame={frame}
              onLook={setWords}
              points={points.map((point) => ({
                key: point.key,
                x: point.pressure,
                y: shown(point.flow),
                bad: point.problem !== null,
                words: pointWords(point, format('airflow', point.flow, system)),
              }))}
            />
          </>
        )}
      </Chart>
      <figcaption className="chart-readout soft" aria-hidden="true">
        {words ?? 'Each point says its figures; the arrow keys go from one to the next.'}
      </figcaption>
    </figure>
  );
}
