import { AppError, type FieldProblem } from '../../kernel/problems/app-error.ts';
import type { AskedSubject } from './asked.ts';

type Figures = Record<string, Record<string, number | null>>;
type Asked = AskedSubject['figures'][number];

function problemOf(asked: Asked, value: number | null): string | undefined {
  if (value === null) return asked.required ? 'Please fill this in' : undefined;
  if (value < asked.min || value > asked.max) return `Between ${asked.min} and ${asked.max}`;
  return undefined;
}

/** The figures as they are kept: only what was asked, only what was given. Names every field that is wrong. */
export function checkFigures(subjects: readonly AskedSubject[], figures: Figures): Figures {
  const problems: FieldProblem[] = [];
  const kept: Figures = {};
  for (const [subjectId, values] of Object.entries(figures))
    for (const name of Object.keys(values)) {
      const subject = subjects.find(({ id }) => id === subjectId);
      if (!subject?.figures.some((asked) => asked.name === name))
        problems.push({ path: `figures.${subjectId}.${name}`, message: 'Nobody asks for this figure.' });
    }
  for (const { id, figures: asked } of subjects)
    for (const figure of asked) {
      const value = figures[id]?.[figure.name] ?? null;
      const message = problemOf(figure, value);
      if (message !== undefined) problems.push({ path: `figures.${id}.${figure.name}`, message });
      else if (value !== null) kept[id] = { ...kept[id], [figure.name]: value };
    }
  if (problems.length === 0 && Object.keys(kept).length === 0)
    problems.push({ path: 'figures', message: 'Enter at least one figure' });
  if (problems.length > 0) throw new AppError('invalid-input', undefined, problems);
  return kept;
}
