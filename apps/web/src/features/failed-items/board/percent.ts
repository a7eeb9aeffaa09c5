/** A share as people read it; tenths, so that 99.6 % does not become all. */
export const percent = (share: number): string => `${(share * 100).toFixed(1)} %`;
