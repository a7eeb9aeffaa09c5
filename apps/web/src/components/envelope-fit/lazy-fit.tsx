import { lazy, Suspense } from 'react';
import type { FitPanelProps } from './fit-panel.tsx';

const FitPanel = lazy(() => import('./fit-panel.tsx'));

/** The drawing of a fit, fetched when there is one to draw: most visits have a single point. */
export function EnvelopeFit({ test, ...props }: FitPanelProps & { test: string }) {
  const complete = props.raw.rows.filter(({ values }) => values['housePressure'] !== undefined);
  if (test !== 'envelope-leakage' || complete.length < 2) return null;
  return (
    <Suspense>
      <FitPanel {...props} />
    </Suspense>
  );
}
