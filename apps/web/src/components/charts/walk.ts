/** The point that a key leads to; null for keys that lead nowhere. */
export function target(key: string, from: number, count: number): number | null {
  if (count === 0) return null;
  if (key === 'Home') return 0;
  if (key === 'End') return count - 1;
  const step = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[key];
  return step === undefined ? null : Math.min(count - 1, Math.max(0, from + step));
}
