import { expect, test } from 'vitest';
import { spread } from './spread.ts';

const nearest = (spots: readonly (readonly [number, number])[]) =>
  Math.min(...spots.flatMap(([x, y], i) => spots.slice(i + 1).map(([u, v]) => Math.hypot(u - x, v - y))));

test('marks that stand free stay where they are', () => {
  const free = [
    [50, 50],
    [100, 50],
    [50, 200],
  ] as const;
  expect(spread(free, 26, 640, 400)).toEqual(free);
});

test('the houses of one street can each be read, and stay inside of the drawing', () => {
  const street = Array.from({ length: 12 }, (_, i): [number, number] => [630 + (i % 3), 4 + i / 10]);
  const moved = spread(street, 26, 640, 400);
  expect(nearest(moved)).toBeGreaterThan(25);
  for (const [x, y] of moved) {
    expect(x >= 13 && x <= 627).toBe(true);
    expect(y >= 13 && y <= 387).toBe(true);
  }
  expect(spread(street, 26, 640, 400)).toEqual(moved);
  // Two in one place, such as two visits to one house.
  expect(
    nearest(
      spread(
        [
          [300, 200],
          [300, 200],
        ],
        26,
        640,
        400,
      ),
    ),
  ).toBeGreaterThan(25);
});
