import type { WaitingTimes } from '@countercheck/contracts';
import { Band, Chart, Line, linearScale } from '../../../components/charts/index.ts';

type Place = readonly [number, number];

/** A value holds from its day until the next one. */
function stairs(curve: WaitingTimes['curve'], key: 'waiting' | 'low' | 'high'): Place[] {
  let level = 1;
  const places: Place[] = [[0, 100]];
  for (const step of curve) {
    places.push([step.days, level * 100], [step.days, step[key] * 100]);
    level = step[key];
  }
  return places;
}

/** The share still waiting, as stairs with its band. */
export function WaitingChart({ curve }: { curve: WaitingTimes['curve'] }) {
  const longest = Math.max(1, curve.at(-1)?.days ?? 1);
  return (
    <figure className="chart-figure">
      <Chart
        label="Share of failed items still waiting, by days; in figures below"
        shape={0.4}
        x={{ label: 'Days since the failure', scale: (span) => linearScale(0, longest, span), show: String }}
        y={{ label: 'Still waiting (%)', scale: (span) => linearScale(0, 100, span, 5), show: String }}
      >
        {(frame) => (
          <>
            <Band frame={frame} low={stairs(curve, 'low')} high={stairs(curve, 'high')} />
            <Line frame={frame} places={stairs(curve, 'waiting')} />
          </>
        )}
      </Chart>
    </figure>
  );
}
