import { createHash } from 'node:crypto';
import { performance } from 'node:perf_hooks';
import { draw, drawMethods, makeFrame, type FrameRow } from '@countercheck/sampling';

// How long it takes to draw 10 % of a million files from a frozen frame, by each method, and what freezing takes
// before it. The median of the rounds counts. DRAWS=quick for a short run.

const files = 1_000_000;
const rounds = process.env['DRAWS'] === 'quick' ? 1 : 5;
const asked = 1000;

// As ids of records look: eight, four, four, four, twelve.
const id = (kind: number, at: number) => `0198a${kind}00-0000-7000-8000-${at.toString(16).padStart(12, '0')}`;
const population: FrameRow[] = Array.from({ length: files }, (_, i) => ({
  id: id(0, (i * 7919) % files),
  rater: id(1, i % 40),
  builder: id(2, (i * 31) % 60),
  kind: i % 5 === 0 ? 'rough' : 'final',
  date: `2026-${String(1 + (i % 12)).padStart(2, '0')}-${String(1 + (i % 28)).padStart(2, '0')}`,
  weight: 1 + (i % 9),
}));

const hash = createHash('sha256');
const native = { update: (text: string) => void hash.update(text), hex: () => hash.digest('hex') };
let start = performance.now();
const frame = makeFrame(population, native);
console.log(
  `Frame of ${files.toLocaleString('en')} files sorted, checked and hashed in ${Math.round(performance.now() - start)} ms (${frame.hash.slice(0, 12)})`,
);

console.log(`Drawing 10 % of it, median of ${rounds} rounds (slowest – fastest), ms:`);
for (const method of drawMethods) {
  const times: number[] = [];
  let drawn = 0;
  for (let round = 0; round < rounds; round++) {
    const seed = (round + 1).toString(16).padStart(64, '0');
    start = performance.now();
    drawn = draw({ frame, seed, witness: '', method, size: { share: 1000 } }).sample.length;
    times.push(performance.now() - start);
  }
  times.sort((a, b) => a - b);
  const median = times[Math.floor(times.length / 2)]!;
  const [low, high] = [times[0]!, times.at(-1)!].map(Math.round);
  const reached = median <= asked;
  console.log(
    `  ${method.padEnd(14)} ${String(Math.round(median)).padStart(6)}  (${high} – ${low})  ${drawn.toLocaleString('en')} drawn – ${reached ? 'reached' : 'MISSED'}`,
  );
  if (!reached) process.exitCode = 1;
}
