import { expect, it } from 'vitest';
import { wantedPage } from './go-in.ts';

const origin = 'https://rating.example';

it.each([
  ['', '/'],
  ['?to=%2Fhouses%3Fpage%3D2', '/houses?page=2'],
  ['?to=https%3A%2F%2Felsewhere.example%2F', '/'],
  ['?to=%2F%2Felsewhere.example', '/'],
  ['?to=%2F%5Celsewhere.example', '/'],
  ['?to=javascript%3Aalert(1)', '/'],
])('after signing in with %s the page is %s', (search, page) => {
  expect(wantedPage(search, origin)).toBe(page);
});
