/** An action's name as a sentence part: `house.stage-changed` reads "house: stage changed". */
export function actionWords(action: string): string {
  const [about, ...rest] = action.split('.');
  const plain = (text: string) => text.replace(/[-_]/g, ' ');
  return rest.length === 0 ? plain(about ?? '') : `${plain(about ?? '')}: ${plain(rest.join(' '))}`;
}

function textOf(value: unknown): string {
  if (value === null || value === undefined) return '–';
  return typeof value === 'string' ? value : JSON.stringify(value);
}

/** What differs between before and after, field by field. */
export function changesOf(before: unknown, after: unknown): { field: string; from: string; to: string }[] {
  const a = (before && typeof before === 'object' ? before : {}) as Record<string, unknown>;
  const b = (after && typeof after === 'object' ? after : {}) as Record<string, unknown>;
  return [...new Set([...Object.keys(a), ...Object.keys(b)])]
    .map((field) => ({ field, from: textOf(a[field]), to: textOf(b[field]) }))
    .filter(({ from, to }) => from !== to);
}
