import type { DrawnPoint } from './drawn-fit.ts';

/** Everything there is to say about a point of the drawing. */
export function pointWords({ label, pressure, residual, problem }: DrawnPoint, flow: string): string {
  const off =
    residual === null
      ? ''
      : `, ${Math.abs(residual * 100).toFixed(1)} % ${residual < 0 ? 'below' : 'above'} the line`;
  return `${label}: ${flow} at ${pressure.toFixed(1)} Pa${off}.${problem ? ` ${problem}` : ''}`;
}
