import { expect, test } from 'vitest';
import { mapFrame, scaleBar } from './map-frame.ts';

const place = (latitude: number, longitude: number) => ({ latitude, longitude });

test('north is up, east is right, and a kilometre is as long both ways', () => {
  const frame = mapFrame([place(60, 10), place(60.1, 10), place(60, 10.2)]);
  const [x0, y0] = frame.at(place(60, 10));
  const [, north] = frame.at(place(60.1, 10));
  const [east] = frame.at(place(60, 10.2));
  expect(north).toBeLessThan(y0);
  // At 60° a degree of longitude is half as long as one of latitude.
  expect(east - x0).toBeCloseTo(y0 - north, -1);
  expect((y0 - north) * frame.kilometresPerUnit).toBeCloseTo(11.12, 1);
});

test('a single point stands in the middle', () => {
  const frame = mapFrame([place(41, -91)]);
  expect(frame.at(place(41, -91))).toEqual([frame.width / 2, frame.height / 2]);
});

test('the bar is a round distance of at most a quarter of the width', () => {
  expect(scaleBar(0.1, 'si')).toEqual({ length: 100, words: '10 km' });
  expect(scaleBar(0.1, 'us')).toEqual({ length: 80.5, words: '5 mi' });
  expect(scaleBar(0.003, 'si').words).toBe('0.2 km');
});
