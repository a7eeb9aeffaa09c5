/** An address under which a small file that was made here can be saved. */
export const jsonUrl = (value: unknown): string =>
  `data:application/json;charset=utf-8,${encodeURIComponent(`${JSON.stringify(value, null, 2)}\n`)}`;
