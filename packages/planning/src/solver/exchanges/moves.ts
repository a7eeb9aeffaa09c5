import { type Found, lookInto, nowhere, putIn } from '../insert.ts';
import type { Routes } from '../routes.ts';

/** How many neighbours an exchange tries, and what it has to save to be one. */
export const near = 15;
export const gain = 1e-7;

/** Takes a visit out of its shift, with the times. */
export function takeOut(routes: Routes, v: number): void {
  const s = routes.shift[v]!;
  routes.unlink(v);
  routes.refresh(s);
}

/** Puts a visit behind a node, with the times; the caller knows that it fits. */
export function putBack(routes: Routes, v: number, s: number, after: number): void {
  routes.link(v, s, after);
  routes.refresh(s);
}

/** Puts a visit where it is cheapest in one shift; false when it fits nowhere there. */
export function putBest(routes: Routes, v: number, s: number, found: Found): boolean {
  Object.assign(found, nowhere());
  lookInto(routes, v, s, found, 0, null);
  return putIn(routes, v, found);
}

export const withinRoom = (routes: Routes, s: number) => routes.load[s]! <= routes.core.shifts[s]!.room;

export const allAllowed = ({ core }: Routes, visits: readonly number[], s: number) =>
  visits.every((v) => core.allowed[v * core.shifts.length + s]);
