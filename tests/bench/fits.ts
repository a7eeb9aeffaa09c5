import { performance } from 'node:perf_hooks';
import { fastFitAt, fastFitSize, fitEnvelopeTest, fitPowerLawFast } from '@countercheck/measurement';

// How many multi-point envelope tests a second are fitted with their 95 % intervals: the fast path, which is what
// simulations use, and the whole test with findings and working. Ordinary and weighted, eight points each; the
// rounds interleave, so that a busy machine slows all alike, and the median counts. FITS=quick for a short run.

const rounds = process.env['FITS'] === 'quick' ? 3 : 15;
const points = 8;
const tests = 512;
const wanted = 200_000;

// Different houses, so that neither branch prediction nor a cache sees one house only.
const pressures: Float64Array[] = [];
const flows: Float64Array[] = [];
const weights = new Float64Array(points);
for (let test = 0; test < tests; test++) {
  pressures.push(Float64Array.from({ length: points }, (_, i) => 60 - 6.5 * i + ((test * 7 + i) % 5) / 10));
  flows.push(
    pressures[test]!.map((pressure, i) => {
      const scatter = 1 + (((test * 31 + i * 17) % 41) - 20) / 1000;
      return (80 + (test % 90)) * pressure ** (0.55 + (test % 30) / 100) * scatter;
    }),
  );
}
weights.forEach((_, i) => (weights[i] = 0.65 + 0.1 * i));

const into = new Float64Array(fastFitSize);
let checksum = 0;

function fast(weighted: boolean, times: number): number {
  const start = performance.now();
  for (let i = 0; i < times; i++) {
    const test = i % tests;
    fitPowerLawFast(pressures[test]!, flows[test]!, points, into, 50, weighted ? weights : null);
    checksum += into[fastFitAt.flowHigh]! - into[fastFitAt.flowLow]!;
  }
  return (times / (performance.now() - start)) * 1000;
}

const readings = pressures.map((list, test) =>
  Array.from(list, (pressure, i) => ({ pressure: -pressure, flow: flows[test]![i]! })),
);

function whole(times: number): number {
  const start = performance.now();
  for (let i = 0; i < times; i++) {
    const found = fitEnvelopeTest({ baselineBefore: -0.4, baselineAfter: 0.4, points: readings[i % tests]! });
    if (!found.ok) throw new Error(found.problem.message);
    checksum += found.value.figures.flowAt50.high;
  }
  return (times / (performance.now() - start)) * 1000;
}

const measured = {
  'fast, ordinary': [] as number[],
  'fast, weighted': [] as number[],
  'whole test': [] as number[],
};
fast(false, 50_000);
fast(true, 50_000);
whole(2_000);
for (let round = 0; round < rounds; round++) {
  measured['fast, ordinary'].push(fast(false, 100_000));
  measured['fast, weighted'].push(fast(true, 100_000));
  measured['whole test'].push(whole(3_000));
}

const median = (list: number[]) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)]!;
console.log(
  `Fits with 95 % intervals, ${points} points, median of ${rounds} rounds (slowest – fastest), a second:`,
);
for (const [name, list] of Object.entries(measured)) {
  const [low, high] = [Math.min(...list), Math.max(...list)].map((rate) =>
    Math.round(rate).toLocaleString('en'),
  );
  console.log(
    `  ${name.padEnd(16)} ${Math.round(median(list)).toLocaleString('en').padStart(10)}  (${low} – ${high})`,
  );
}
const reached = median(measured['fast, ordinary']);
console.log(
  `  asked: ${wanted.toLocaleString('en')} – ${reached >= wanted ? 'reached' : 'MISSED'}  [${checksum.toExponential(3)}]`,
);
if (reached < wanted) process.exitCode = 1;
