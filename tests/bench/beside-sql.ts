import { performance } from 'node:perf_hooks';
import pg from 'pg';
import { spread, type Spread } from './percentiles.ts';
import { runBare, type Statement } from './recorded-sql.ts';

export type Endpoint = [name: string, ask: () => Promise<{ statusCode: number; body: string }>];

interface Measured {
  name: string;
  p50: number;
  ratio: number;
}

const line = (name: string, whole: Spread, sql: Spread) =>
  `${name.padEnd(46)} p50 ${whole.p50.toFixed(1).padStart(7)} ms  p95 ${whole.p95.toFixed(1).padStart(7)} ms   SQL p50 ${sql.p50.toFixed(1).padStart(7)} ms  p95 ${sql.p95.toFixed(1).padStart(7)} ms   ratio p50 ${(whole.p50 / sql.p50).toFixed(2)}  p95 ${(whole.p95 / sql.p95).toFixed(2)}`;

/**
 * Asks each endpoint and runs the SQL that it ran through one bare connection, in turn, so that a busy machine slows
 * both alike. Prints a line for each and gives back the medians, in ms, and their ratios.
 */
export async function besideSql(
  appUrl: string,
  recorder: { take(): Statement[] },
  endpoints: readonly Endpoint[],
  rounds: number,
  warming = 5,
): Promise<Measured[]> {
  // When a question fails the server is stopped under it, and its own error must be the one that is told.
  const bare = new pg.Pool({ connectionString: appUrl, max: 1, options: '-c timezone=UTC' });
  const connection = await bare.connect();
  connection.on('error', () => undefined);
  const measured: Measured[] = [];
  for (const [name, ask] of endpoints) {
    const whole: number[] = [];
    const sql: number[] = [];
    for (let round = -warming; round < rounds; round += 1) {
      recorder.take();
      const start = performance.now();
      const answer = await ask();
      const middle = performance.now();
      if (answer.statusCode !== 200) throw new Error(`${name}: ${answer.body.slice(0, 300)}`);
      const statements = recorder.take();
      const before = performance.now();
      await runBare(connection, statements);
      if (round >= 0) {
        whole.push(middle - start);
        sql.push(performance.now() - before);
      }
    }
    const [ours, theirs] = [spread(whole), spread(sql)];
    console.log(line(name, ours, theirs));
    measured.push({ name, p50: ours.p50, ratio: ours.p50 / theirs.p50 });
  }
  connection.release();
  await bare.end();
  return measured;
}
