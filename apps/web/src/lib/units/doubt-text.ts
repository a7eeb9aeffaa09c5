/** As many decimals as a result has, and more where a small doubt would read as none. */
export function doubtText(value: number, decimals: number): string {
  for (let more = decimals; more < decimals + 4; more += 1) {
    const text = value.toFixed(more);
    if (Number(text) !== 0 || value === 0) return text;
  }
  return value.toPrecision(1);
}
