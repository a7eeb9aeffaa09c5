import type { InstrumentFacts, Problem, RawReading } from '@countercheck/measurement';
import { useMemo } from 'react';
import { drawnFit } from './drawn-fit.ts';
import { FitChart } from './fit-chart.tsx';
import { FitWords } from './fit-words.tsx';
import { PointsTable } from './points-table.tsx';
import { ResidualChart } from './residual-chart.tsx';
import './fit.css';

export interface FitPanelProps {
  raw: RawReading;
  instrument: InstrumentFacts | null;
  problems?: readonly Problem[];
}

/** The points of an envelope test on log-log axes with their line, their residuals, and the same in a table. */
export default function FitPanel({ raw, instrument, problems }: FitPanelProps) {
  const fit = useMemo(() => drawnFit(raw, instrument, problems), [raw, instrument, problems]);
  if (fit.points.length < 2) return null;
  return (
    <section className="fit-panel" aria-label="Points and fit">
      <h4>Points and fit</h4>
      <FitWords fit={fit} />
      <div className="fit-beside">
        <div>
          <FitChart fit={fit} />
          {fit.lines.some(({ rSquared }) => rSquared !== null) && <ResidualChart fit={fit} />}
        </div>
        <PointsTable fit={fit} />
      </div>
    </section>
  );
}
