/** What one group (a rater, an instrument) shows on its own. */
export interface GroupMean {
  id: string;
  n: number;
  mean: number;
  /** standard deviation of single values within the group */
  sd: number;
}

export interface Shrunk extends GroupMean {
  /** the mean, drawn toward that of all groups the more, the fewer values stand behind it */
  estimate: number;
  /** standard error of the estimate */
  error: number;
  /** share of the group's own mean in the estimate, 0 to 1 */
  weight: number;
}

/**
 * Means of groups as a mixed model sees them: groups differ by a normal spread τ, values within a group by σ, and a
 * group's own mean counts with τ² ÷ (τ² + σ² ÷ n), the mean of all groups with the rest. τ² by the moment estimate
 * of DerSimonian and Laird (1986, from memory), not below zero; σ² pooled over the groups.
 * Groups of fewer than two values are left out. Empty for fewer than two groups. Never throws.
 */
export function shrunkMeans(groups: readonly GroupMean[]): {
  overall: number;
  between: number;
  groups: Shrunk[];
} {
  const used = groups.filter(({ n }) => n >= 2);
  if (used.length < 2) return { overall: used[0]?.mean ?? 0, between: 0, groups: [] };
  const freedom = used.reduce((sum, { n }) => sum + n - 1, 0);
  const within = used.reduce((sum, { n, sd }) => sum + (n - 1) * sd * sd, 0) / freedom;
  const weights = used.map(({ n }) => (within > 0 ? n / within : n));
  const total = weights.reduce((sum, w) => sum + w, 0);
  const fixed = used.reduce((sum, { mean }, i) => sum + weights[i]! * mean, 0) / total;
  const q = used.reduce((sum, { mean }, i) => sum + weights[i]! * (mean - fixed) ** 2, 0);
  const c = total - weights.reduce((sum, w) => sum + w * w, 0) / total;
  const between = Math.max(0, (q - (used.length - 1)) / c);
  const marginal = used.map(({ n }) => 1 / (between + within / n));
  const overall =
    used.reduce((sum, { mean }, i) => sum + marginal[i]! * mean, 0) / marginal.reduce((s, w) => s + w, 0);
  return {
    overall,
    between: Math.sqrt(between),
    groups: used.map((group) => {
      const weight = between === 0 ? 0 : between / (between + within / group.n);
      return {
        ...group,
        weight,
        estimate: overall + weight * (group.mean - overall),
        error: Math.sqrt(weight * (within / group.n)),
      };
    }),
  };
}
