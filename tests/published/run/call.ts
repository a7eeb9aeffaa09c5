import * as measurement from '@countercheck/measurement';
import * as rules from '@countercheck/rules';
import { drivers } from '../drive/index.ts';

type Anything = (...args: unknown[]) => unknown;

/**
 * Calls a public function by its name with the given values in the order in which the check lists them, and
 * lays the result out as named figures: a plain number as `value`, a refusal as `refused`.
 */
export function call(name: string, given: Record<string, unknown>): Record<string, unknown> {
  const driver = drivers[name];
  if (driver) return driver(given);
  const found: unknown = { ...rules, ...measurement }[name as keyof typeof measurement];
  if (typeof found !== 'function') throw new Error(`no package has a public function "${name}"`);
  return figures((found as Anything)(...Object.values(given)));
}

/** A result as named figures. */
export function figures(result: unknown): Record<string, unknown> {
  if (typeof result !== 'object' || result === null) return { value: result };
  const outcome = result as Record<string, unknown>;
  if (outcome['ok'] === true && 'value' in outcome) return figures(outcome['value']);
  if (outcome['ok'] === false && 'problem' in outcome)
    return { refused: (outcome['problem'] as { code: string }).code };
  return outcome;
}

/** The figure under a dotted path, e.g. `line.slope`; undefined when there is none. */
export function at(found: Record<string, unknown>, path: string): unknown {
  return path
    .split('.')
    .reduce<unknown>(
      (part, key) =>
        typeof part === 'object' && part !== null ? (part as Record<string, unknown>)[key] : undefined,
      found,
    );
}
