import type { FiguresForm } from '@countercheck/contracts';
import { format, type QuantityKind, type UnitSystem } from '@countercheck/measurement';
import * as z from 'zod';

export type Figures = Record<string, Record<string, number | null>>;
type Subjects = FiguresForm['subjects'];

/** The form as it begins: what was signed last, else empty. */
export function beginFigures(form: Pick<FiguresForm, 'subjects' | 'submissions'>): Figures {
  const last = form.submissions[0]?.figures ?? {};
  return Object.fromEntries(
    form.subjects.map(({ id, figures }) => [
      id,
      Object.fromEntries(figures.map(({ name }) => [name, last[id]?.[name] ?? null])),
    ]),
  );
}

/** What keeps the figures from being signed, by `subject.figure`. Limits are spoken in the units shown. */
export function figureProblems(
  subjects: Subjects,
  figures: Figures,
  system: UnitSystem,
): Record<string, string> {
  const problems: Record<string, string> = {};
  for (const { id, figures: asked } of subjects) {
    for (const { name, quantity, min, max, required } of asked) {
      const value = figures[id]?.[name] ?? null;
      const say = (bound: number) => format(quantity as QuantityKind, bound, system);
      const path = `${id}.${name}`;
      if (value === null) {
        if (required) problems[path] = 'Please fill this in';
      } else if (Number.isNaN(value)) problems[path] = 'Enter a number';
      else if (value < min) problems[path] = `At least ${say(min)}`;
      else if (value > max) problems[path] = `At most ${say(max)}`;
    }
  }
  return problems;
}

const keptSchema = z.record(z.string(), z.record(z.string(), z.number().nullable()));
const keyOf = (token: string) => `figures-draft:${token.slice(0, 12)}`;

/** Figures typed before a reload, as far as the form still asks for them. */
export function keptFigures(token: string, begun: Figures, store: Pick<Storage, 'getItem'>): Figures | null {
  try {
    const kept = keptSchema.safeParse(JSON.parse(store.getItem(keyOf(token)) ?? 'null'));
    if (!kept.success) return null;
    return Object.fromEntries(
      Object.entries(begun).map(([id, figures]) => [
        id,
        Object.fromEntries(
          Object.entries(figures).map(([name, value]) => {
            const typed = kept.data[id]?.[name];
            return [name, typed === undefined ? value : typed];
          }),
        ),
      ]),
    );
  } catch {
    return null;
  }
}

export function keepFigures(
  token: string,
  figures: Figures | null,
  store: Pick<Storage, 'setItem' | 'removeItem'>,
): void {
  try {
    if (figures === null) store.removeItem(keyOf(token));
    else store.setItem(keyOf(token), JSON.stringify(figures));
  } catch {
    // The form works without a store; only a reload would empty it.
  }
}
