type Spot = readonly [x: number, y: number];

const rounds = 60;

/**
 * Moves marks apart that would cover each other, each as little as it takes to be `apart` from the others and inside
 * of the drawing; those that stand free stay. The same marks always end in the same places.
 */
export function spread(
  spots: readonly Spot[],
  apart: number,
  width: number,
  height: number,
): [number, number][] {
  const moved = spots.map(([x, y]): [number, number] => [x, y]);
  for (let round = 0; round < rounds; round++) {
    let free = true;
    for (let i = 0; i < moved.length; i++)
      for (let k = i + 1; k < moved.length; k++) {
        const [one, other] = [moved[i]!, moved[k]!];
        const [x, y] = [other[0] - one[0], other[1] - one[1]];
        const far = Math.hypot(x, y);
        if (far >= apart - 0.05) continue;
        free = false;
        // Of two in one place each goes its own way, by its number.
        const angle = far < 0.01 ? k * 2.4 : Math.atan2(y, x);
        const push = (apart - far) / 2;
        one[0] -= push * Math.cos(angle);
        one[1] -= push * Math.sin(angle);
        other[0] += push * Math.cos(angle);
        other[1] += push * Math.sin(angle);
      }
    for (const spot of moved) {
      spot[0] = Math.min(width - apart / 2, Math.max(apart / 2, spot[0]));
      spot[1] = Math.min(height - apart / 2, Math.max(apart / 2, spot[1]));
    }
    if (free) break;
  }
  return moved.map(([x, y]) => [Math.round(x * 10) / 10, Math.round(y * 10) / 10]);
}
