import type { Frame } from './chart.tsx';

type Place = readonly [x: number, y: number];

const path = (places: readonly Place[], { x, y }: Frame) =>
  places.map(([a, b], i) => `${i === 0 ? 'M' : 'L'}${x.at(a).toFixed(1)} ${y.at(b).toFixed(1)}`).join('');

/** A line through places; what it says stands in the words beside the chart. */
export function Line({ frame, places }: { frame: Frame; places: readonly Place[] }) {
  return <path className="chart-line" clipPath={frame.clip} d={path(places, frame)} aria-hidden="true" />;
}

/** Many points as one stroke, for those that need not be walked through; the table beside the chart has them. */
export function Dots({ frame: { x, y, clip }, places }: { frame: Frame; places: readonly Place[] }) {
  const d = places.map(([a, b]) => `M${x.at(a).toFixed(1)} ${y.at(b).toFixed(1)}h0`).join('');
  return <path className="chart-dots" clipPath={clip} d={d} aria-hidden="true" />;
}

interface BandProps {
  frame: Frame;
  low: readonly Place[];
  high: readonly Place[];
}

/** The area between two lines. */
export function Band({ frame, low, high }: BandProps) {
  if (low.length === 0) return null;
  return (
    <path
      className="chart-band"
      clipPath={frame.clip}
      d={`${path(low, frame)}${path([...high].reverse(), frame).replace('M', 'L')}Z`}
      aria-hidden="true"
    />
  );
}

interface RuleProps {
  frame: Frame;
  at: number;
  along: 'x' | 'y';
  words?: string;
}

/** A straight mark across the drawing at one value of an axis. */
export function Rule({ frame, at, along, words }: RuleProps) {
  const { left, right, top, bottom, x, y } = frame;
  const place = along === 'x' ? x.at(at) : y.at(at);
  if (along === 'y')
    return <path className="chart-rule" d={`M${left} ${place}H${right}`} aria-hidden="true" />;
  return (
    <g aria-hidden="true">
      <path className="chart-rule" d={`M${place} ${top}V${bottom}`} />
      {words && (
        <text x={place - 5} y={top + 11} textAnchor="end">
          {words}
        </text>
      )}
    </g>
  );
}

interface SpreadProps {
  frame: Frame;
  at: number;
  value: number;
  low: number;
  high: number;
}

/** A result with its interval, as a stroke with two caps. */
export function Spread({ frame: { x, y }, at, value, low, high }: SpreadProps) {
  const place = x.at(at);
  return (
    <g className="chart-spread" aria-hidden="true">
      <path
        d={`M${place - 6} ${y.at(low)}h12M${place - 6} ${y.at(high)}h12M${place} ${y.at(low)}V${y.at(high)}`}
      />
      <rect x={place - 4} y={y.at(value) - 4} width="8" height="8" />
    </g>
  );
}

interface BarsProps {
  frame: Frame;
  /** each bar's middle and height */
  places: readonly Place[];
  /** in the unit of the axis */
  width: number;
}

/** Bars from zero; what they say stands in the table beside the chart. */
export function Bars({ frame: { x, y, clip }, places, width }: BarsProps) {
  return (
    <g className="chart-bars" clipPath={clip} aria-hidden="true">
      {places.map(([middle, height]) => {
        const [from, to] = [x.at(middle - width / 2), x.at(middle + width / 2)];
        return (
          <rect key={middle} x={from} y={y.at(height)} width={to - from} height={y.at(0) - y.at(height)} />
        );
      })}
    </g>
  );
}
