import { useRef, useState, type KeyboardEvent } from 'react';
import type { Frame } from './chart.tsx';
import { target } from './walk.ts';

export interface ChartPoint {
  key: string;
  x: number;
  y: number;
  /** everything there is to say about it, in words */
  words: string;
  /** drawn as a cross: something is wrong with it */
  bad?: boolean;
}

interface PointsProps {
  frame: Frame;
  points: readonly ChartPoint[];
  onLook: (words: string | null) => void;
}

const radius = 5;

/**
 * Points that can be walked through: one stop of the Tab key, then the arrow keys. Each says what it is where it is
 * focused or pointed at.
 */
export function Points({ frame, points, onLook }: PointsProps) {
  const [current, setCurrent] = useState(0);
  const group = useRef<SVGGElement>(null);
  const stop = Math.min(current, points.length - 1);

  function walk(event: KeyboardEvent) {
    const to = target(event.key, stop, points.length);
    if (to === null) return;
    event.preventDefault();
    setCurrent(to);
    group.current?.querySelectorAll<SVGGElement>('[role="img"]')[to]?.focus();
  }

  return (
    <g ref={group} onKeyDown={walk}>
      {points.map((point, i) => (
        <g
          key={point.key}
          role="img"
          aria-label={point.words}
          tabIndex={i === stop ? 0 : -1}
          className={point.bad ? 'chart-point chart-point-bad' : 'chart-point'}
          transform={`translate(${frame.x.at(point.x)} ${frame.y.at(point.y)})`}
          onFocus={() => {
            setCurrent(i);
            onLook(point.words);
          }}
          onBlur={() => onLook(null)}
          onPointerEnter={() => onLook(point.words)}
          onPointerLeave={() => onLook(null)}
        >
          {/* a finger needs more than the dot */}
          <circle className="chart-reach" r={14} />
          {point.bad ? (
            <path
              d={`M${-radius} ${-radius}L${radius} ${radius}M${-radius} ${radius}L${radius} ${-radius}`}
            />
          ) : (
            <circle r={radius} />
          )}
        </g>
      ))}
    </g>
  );
}
