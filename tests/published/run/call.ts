import * as measurement from '@countercheck/measurement';
import * as rules from '@countercheck/rules';
import { drivers } from '../drive/index.ts';
import { figures } from './figures.ts';

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
