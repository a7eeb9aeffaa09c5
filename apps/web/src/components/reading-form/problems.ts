import type { Problem } from '@countercheck/measurement';

/**
 * What to say beside each field. Before the first attempt to record, what is merely not filled in yet is no
 * fault; what cannot be right is said at once.
 */
export function problemsByPath(
  problems: readonly Problem[],
  unreadable: Record<string, string>,
  attempted: boolean,
): Record<string, string> {
  const unfinished = ['missing', 'not-confirmed', 'too-few-rows'];
  const said: Record<string, string> = {};
  for (const { path, code, message } of problems) {
    if (attempted || !unfinished.includes(code)) said[path] ??= message;
  }
  // The field itself already says why its text is no number.
  for (const path of Object.keys(unreadable)) delete said[path];
  return said;
}

/** Server problems name fields below the body; the form's paths begin at the raw reading. */
export function serverPaths(fields: Record<string, string>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(fields).map(([path, words]) => [path.replace(/^raw\./, ''), words]),
  );
}
