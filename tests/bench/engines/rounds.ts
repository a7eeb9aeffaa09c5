import { performance } from 'node:perf_hooks';

/** Something done once for a house, alone or waited for. */
export type Work = (index: number) => unknown;

async function perSecond(work: Work, houses: number, ms: number): Promise<number> {
  const start = performance.now();
  let done = 0;
  for (;;) {
    // the clock is asked seldom, so that it does not weigh
    for (let i = 0; i < 32; i++) {
      const got = work((done + i) % houses);
      if (got instanceof Promise) await got;
    }
    done += 32;
    const elapsed = performance.now() - start;
    if (elapsed >= ms) return (done * 1000) / elapsed;
  }
}

const middle = (numbers: readonly number[]) =>
  [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)]!;

/**
 * Runs every work in turn, round after round, so that a busy machine slows all of them alike; gives the median
 * of the rounds, in works per second, in the order given. The first rounds warm up and do not count.
 */
export async function interleaved(
  works: readonly Work[],
  houses: number,
  { rounds, ms }: { rounds: number; ms: number },
): Promise<number[]> {
  const rates = works.map((): number[] => []);
  for (let round = -2; round < rounds; round++)
    for (const [i, work] of works.entries()) {
      const rate = await perSecond(work, houses, ms);
      if (round >= 0) rates[i]!.push(rate);
    }
  return rates.map(middle);
}
