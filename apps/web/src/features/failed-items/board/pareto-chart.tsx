import { Bars, Chart, Line, linearScale } from '../../../components/charts/index.ts';

interface ParetoChartProps {
  groups: readonly { rank: number; share: number; cumulative: number }[];
}

/** Shares as bars and, added up, as a line; the table under it says the same in figures. */
export function ParetoChart({ groups }: ParetoChartProps) {
  const [first, last] = [groups[0]!.rank, groups.at(-1)!.rank];
  return (
    <figure className="chart-figure">
      <Chart
        label={`Share of ${groups.length} groups, largest first, and their sum; in figures in the table below`}
        shape={0.4}
        x={{
          label: 'Rank in the table',
          scale: (span) => linearScale(first - 0.6, last + 0.6, span, Math.min(groups.length, 12)),
          show: (tick) => (Number.isInteger(tick) ? String(tick) : ''),
        }}
        y={{ label: 'Share of what failed (%)', scale: (span) => linearScale(0, 100, span, 5), show: String }}
      >
        {(frame) => (
          <>
            <Bars
              frame={frame}
              width={0.7}
              places={groups.map(({ rank, share }) => [rank, share * 100] as const)}
            />
            <Line
              frame={frame}
              places={groups.map(({ rank, cumulative }) => [rank, cumulative * 100] as const)}
            />
          </>
        )}
      </Chart>
      <figcaption className="small soft">
        Bars: share of each. Line: all down to this one, added up.
      </figcaption>
    </figure>
  );
}
