import type { Core } from '../solver/core.ts';
import { Routes } from '../solver/routes.ts';

/** A set of visits that one shift can do, in the order that costs least. */
export interface Column {
  shift: number;
  visits: number[];
  /** driving and what the visits cost on this shift, without leaving out and shares */
  cost: number;
}

/**
 * Every set of visits that a shift can do, the empty one too. Of shifts that are alike only the first is looked
 * at. Gives null as soon as more than `most` chains were tried.
 */
export function everyColumn(core: Core, begun: Routes, most: number): Column[] | null {
  const columns: Column[] = [];
  const fixedOf = core.shifts.map((_, s) =>
    Array.from({ length: core.n }, (_, v) => v).filter((v) => core.fixed[v] && begun.shift[v] === s),
  );
  let tried = 0;
  for (let s = 0; s < core.shifts.length; s++) {
    if (core.alike[s] !== s) continue;
    const best = new Map<string, Column>();
    const routes = new Routes(core);
    const candidates = Array.from({ length: core.n }, (_, v) => v).filter(
      (v) => core.allowed[v * core.shifts.length + s],
    );
    const chain: number[] = [];
    const grow = (): boolean => {
      if (++tried > most) return false;
      const fits = routes.refresh(s);
      if (fits && fixedOf[s]!.every((v) => chain.includes(v))) keep(best, columnOf(routes, s, chain));
      const end = chain.at(-1) ?? core.n + 2 * s;
      // A chain that is late at its last visit stays late; one that is late at home might still be saved by a
      // visit on a quicker way, when the table knows such ways.
      if (Math.min(routes.leaves0[end]!, routes.leaves1[end]!) > core.shifts[s]!.to) return true;
      for (const v of candidates) {
        if (routes.shift[v]! >= 0 || routes.load[s]! + core.size[v]! > core.shifts[s]!.room) continue;
        routes.link(v, s, end);
        chain.push(v);
        const inside = grow();
        chain.pop();
        routes.unlink(v);
        if (!inside) return false;
      }
      return true;
    };
    if (!grow()) return null;
    columns.push(...best.values());
  }
  return columns;
}

function columnOf(routes: Routes, s: number, chain: readonly number[]): Column {
  const { core } = routes;
  let cost = routes.late[s]!;
  let at = core.n + 2 * s;
  for (const v of chain) {
    cost += routes.way(at, v) + core.extra[v * core.shifts.length + s]!;
    at = v;
  }
  return { shift: s, visits: [...chain], cost: cost + routes.way(at, core.n + 2 * s + 1) };
}

function keep(best: Map<string, Column>, column: Column): void {
  const key = [...column.visits].sort((a, b) => a - b).join();
  const known = best.get(key);
  if (!known || column.cost < known.cost) best.set(key, column);
}
