/**
 * The chances of 0 to `n` of n trials whose common chance is itself beta distributed with `a` and `b`, both above zero:
 * by the ratio of neighbours, p(k + 1) ÷ p(k) = (n − k)(k + a) ÷ ((k + 1)(n − k − 1 + b)), scaled to a sum of one.
 * Source: beta-binomial distribution, textbook, from memory. Never throws.
 */
export function betaBinomial(n: number, a: number, b: number): number[] {
  const logs = [0];
  for (let k = 0; k < n; k += 1)
    logs.push(logs[k]! + Math.log((n - k) * (k + a)) - Math.log((k + 1) * (n - k - 1 + b)));
  const most = Math.max(...logs);
  const plain = logs.map((log) => Math.exp(log - most));
  const sum = plain.reduce((total, each) => total + each, 0);
  return plain.map((each) => each / sum);
}
