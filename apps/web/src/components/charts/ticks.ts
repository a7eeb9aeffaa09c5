/** Round steps as on a ruler: 1, 2 or 5 times a power of ten, about `count` of them between the ends. */
export function linearTicks(low: number, high: number, count = 5): number[] {
  if (!Number.isFinite(low) || !Number.isFinite(high) || low >= high)
    return Number.isFinite(low) ? [low] : [];
  const raw = (high - low) / Math.max(1, count);
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = ([1, 2, 5, 10].find((each) => each * power >= raw * (1 - 1e-9)) ?? 10) * power;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => tidy((first + i) * step));
}

const byDensity = [
  [1, 2, 5],
  [1, 1.5, 2, 3, 5, 7],
];

/** Round numbers on a logarithmic axis; a narrow one, where these are too few, is divided like a ruler. */
export function logTicks(low: number, high: number, fewest = 3): number[] {
  if (!(low > 0) || !Number.isFinite(high) || low >= high)
    return low > 0 && Number.isFinite(low) ? [low] : [];
  const decades = Array.from(
    { length: Math.floor(Math.log10(high)) - Math.floor(Math.log10(low)) + 1 },
    (_, i) => 10 ** (Math.floor(Math.log10(low)) + i),
  );
  for (const steps of byDensity) {
    const found = decades
      .flatMap((decade) => steps.map((step) => tidy(step * decade)))
      .filter((tick) => tick >= low * (1 - 1e-9) && tick <= high * (1 + 1e-9));
    if (found.length >= fewest) return found;
  }
  return linearTicks(low, high, fewest);
}

/** Without the last binary digits that a product leaves behind; −0 is 0. */
function tidy(value: number): number {
  return Number(value.toPrecision(12)) + 0;
}
