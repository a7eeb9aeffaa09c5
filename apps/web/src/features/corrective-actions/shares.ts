/** A share as it is sent, 0–1, from per cent as they are typed; empty is the ordinary share. */
export const shareOf = (percent: string | number): number | null =>
  percent === '' ? null : Number((Number(percent) / 100).toFixed(6));

/** A share as it is read. */
export const percentWords = (share: number | null): string =>
  share === null ? 'the ordinary share' : `${Number((share * 100).toFixed(2))} %`;
