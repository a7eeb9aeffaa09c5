import { displayUnit, parseEntry, testDefinitions, type FieldDefinition } from '@countercheck/measurement';
import type { readingBody } from '@countercheck/contracts';
import type * as z from 'zod';
import type { FieldProblem } from '../../kernel/problems/app-error.ts';

type Body = z.output<typeof readingBody>;

/** Every number of the reading by the path under which its text was kept. */
function numbersOf({ test, raw }: Body): Map<string, { value: number; field: FieldDefinition | undefined }> {
  const { fields, rows } = testDefinitions[test];
  const numbers = new Map<string, { value: number; field: FieldDefinition | undefined }>();
  const add = (known: FieldDefinition[], values: Record<string, number>, prefix: string) => {
    for (const [key, value] of Object.entries(values))
      numbers.set(`${prefix}values.${key}`, { value, field: known.find((field) => field.key === key) });
  };
  add(fields, raw.values, '');
  raw.rows.forEach((row, i) => add(rows?.fields ?? [], row.values, `rows.${i}.`));
  return numbers;
}

function typedValue(field: FieldDefinition, { text, unit }: { text: string; unit: string }): number | null {
  const system = (['us', 'si'] as const).find((each) => displayUnit(field.quantity, each) === unit);
  return system ? parseEntry(field.quantity, text, system).value : null;
}

const near = (one: number, other: number) =>
  Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one), Math.abs(other));

/**
 * Where a number is not what its text says. Each number comes with the text that a person typed; one that
 * nobody typed, or that became another on its way, is no reading.
 */
export function enteredProblems(body: Body): FieldProblem[] {
  const numbers = numbersOf(body);
  const problems: FieldProblem[] = [];
  for (const [path, { value, field }] of numbers) {
    const typed = body.entered[path];
    if (!field) continue;
    if (!typed)
      problems.push({ path: `raw.${path}`, message: `What was typed for ${field.label} is missing.` });
    else {
      const meant = typedValue(field, typed);
      if (meant === null || !near(meant, value))
        problems.push({
          path: `raw.${path}`,
          message: `${field.label} was typed as "${typed.text} ${typed.unit}", which is not the ${value} sent.`,
        });
    }
  }
  for (const path of Object.keys(body.entered))
    if (!numbers.has(path))
      problems.push({
        path: `entered.${path}`,
        message: 'Something was typed here, but no number was sent.',
      });
  return problems;
}
