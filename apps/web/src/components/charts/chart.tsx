import { useElementSize } from '@mantine/hooks';
import { useId, type ReactNode } from 'react';
import type { Scale, Span } from './scale.ts';
import './charts.css';

interface Axis {
  label: string;
  /** the scale for the length that the axis takes in this drawing */
  scale: (span: Span) => Scale;
  /** the number at a tick, as it is written */
  show: (tick: number) => string;
}

export interface Frame {
  x: Scale;
  y: Scale;
  left: number;
  right: number;
  top: number;
  bottom: number;
  /** keeps what runs out of the axes inside them: the value of a `clipPath` */
  clip: string;
}

interface ChartProps {
  label: string;
  x: Axis;
  y: Axis;
  /** height as a share of the width */
  shape?: number;
  children: (frame: Frame) => ReactNode;
}

const margin = { left: 58, right: 14, top: 12, bottom: 44 };
const usualWidth = 560;
const leastWidth = 160;
const closestTicks = 34;

/** A drawing with two axes. It takes the width there is, so that its words stay readable on a phone. */
export function Chart({ label, x, y, shape = 0.62, children }: ChartProps) {
  const id = useId();
  const { ref, width: measured } = useElementSize();
  // Measured while the page is still being laid out it may be too narrow for its own margins.
  const width = Math.max(leastWidth, Math.round(measured) || usualWidth);
  const height = Math.round(Math.max(180, width * shape));
  const [left, right] = [margin.left, width - margin.right];
  const [top, bottom] = [margin.top, height - margin.bottom];
  const frame = {
    x: x.scale([left, right]),
    y: y.scale([bottom, top]),
    left,
    right,
    top,
    bottom,
    clip: `url(#${id})`,
  };
  return (
    <div ref={ref} className="chart">
      <svg viewBox={`0 0 ${width} ${height}`} width={width} height={height} role="group" aria-label={label}>
        <clipPath id={id}>
          <rect x={left} y={top} width={right - left} height={bottom - top} />
        </clipPath>
        <g aria-hidden="true">
          {apart(frame.x).map((tick) => (
            <g key={tick} transform={`translate(${frame.x.at(tick)} 0)`}>
              <line className="chart-grid" y1={top} y2={bottom} />
              <text y={bottom + 16} textAnchor="middle">
                {x.show(tick)}
              </text>
            </g>
          ))}
          {frame.y.ticks.map((tick) => (
            <g key={tick} transform={`translate(0 ${frame.y.at(tick)})`}>
              <line className="chart-grid" x1={left} x2={right} />
              <text x={left - 6} dy="0.32em" textAnchor="end">
                {y.show(tick)}
              </text>
            </g>
          ))}
          <path className="chart-axes" d={`M${left} ${top}V${bottom}H${right}`} />
          <text className="chart-label" x={(left + right) / 2} y={height - 6} textAnchor="middle">
            {x.label}
          </text>
          <text
            className="chart-label"
            transform={`translate(13 ${(top + bottom) / 2}) rotate(-90)`}
            textAnchor="middle"
          >
            {y.label}
          </text>
        </g>
        {children(frame)}
      </svg>
    </div>
  );
}

/** Ticks whose words would run into those before are left out. */
function apart(scale: Scale): number[] {
  const kept: number[] = [];
  for (const tick of scale.ticks) {
    const last = kept.at(-1);
    if (last === undefined || Math.abs(scale.at(tick) - scale.at(last)) >= closestTicks) kept.push(tick);
  }
  return kept;
}
