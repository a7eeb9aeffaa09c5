/** A result as named figures. */
export function figures(result: unknown): Record<string, unknown> {
  if (typeof result !== 'object' || result === null) return { value: result };
  const outcome = result as Record<string, unknown>;
  if (outcome['ok'] === true && 'value' in outcome) return figures(outcome['value']);
  if (outcome['ok'] === false && 'problem' in outcome)
    return { refused: (outcome['problem'] as { code: string }).code };
  return outcome;
}
