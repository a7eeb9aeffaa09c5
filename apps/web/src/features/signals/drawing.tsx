import type { ControlChart } from '@countercheck/contracts';
import { useState } from 'react';
import { Chart, Line, linearScale, Points, Rule } from '../../components/charts/index.ts';

type Point = ControlChart['points'][number];

interface DrawingProps {
  title: string;
  /** the unit of the upright axis */
  unit: string;
  points: readonly Point[];
  lines: { of: (point: Point) => number | null; dots?: boolean }[];
  /** heights of level lines: a mean, limits */
  rules: number[];
  outside: (value: number) => boolean;
}

/** One control chart; what a dot is stands below while it is looked at. */
export function Drawing({ title, unit, points, lines, rules, outside }: DrawingProps) {
  const [words, setWords] = useState<string | null>(null);
  const values = points.flatMap((point) => lines.flatMap(({ of }) => of(point) ?? []));
  const [low, high] = [Math.min(0, ...values, ...rules), Math.max(0.1, ...values, ...rules)];
  const room = (high - low) * 0.06;
  const placesOf = (of: DrawingProps['lines'][number]['of']) =>
    points.flatMap((point, i) => {
      const value = of(point);
      return value === null ? [] : [[i + 1, value] as const];
    });
  const dotted = lines.find(({ dots }) => dots)?.of;
  return (
    <figure className="chart-figure">
      <Chart
        label={`${title}, ${points.length} readings; the table tells the same`}
        shape={0.42}
        x={{
          label: 'Reading, the oldest first',
          scale: (span) => linearScale(0, points.length + 1, span),
          show: String,
        }}
        y={{ label: unit, scale: (span) => linearScale(low - room, high + room, span), show: String }}
      >
        {(frame) => (
          <>
            {rules.map((at) => (
              <Rule key={at} frame={frame} at={at} along="y" />
            ))}
            {lines.map(({ of }, i) => (
              <Line key={i} frame={frame} places={placesOf(of)} />
            ))}
            {dotted && (
              <Points
                frame={frame}
                onLook={setWords}
                points={points.flatMap((point, i) => {
                  const value = dotted(point);
                  if (value === null) return [];
                  const bad = outside(value);
                  return [
                    {
                      ...{ key: point.readingId, x: i + 1, y: value, bad },
                      words: `${point.address}, ${point.at.slice(0, 10)}: ${value.toFixed(2)}${bad ? ', outside the limits' : ''}`,
                    },
                  ];
                })}
              />
            )}
          </>
        )}
      </Chart>
      <figcaption className="chart-readout soft">{words ?? title}</figcaption>
    </figure>
  );
}
