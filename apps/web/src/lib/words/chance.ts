/** A probability as people say it; null when it is not known. */
export function chanceWords(chance: number | null | undefined): string | null {
  if (chance === null || chance === undefined || !(chance >= 0 && chance <= 1)) return null;
  if (chance < 0.001) return 'Less than one chance in 1,000';
  if (chance > 0.999) return 'All but certain';
  if (chance < 0.1) return `About one chance in ${Math.round(1 / chance)}`;
  return `About ${Math.round(chance * 100)} chances in 100`;
}
