import { performance } from 'node:perf_hooks';
import { setTimeout as pause } from 'node:timers/promises';
import type { SignalRun } from '@countercheck/contracts';
import type { Client } from '../support/app.ts';

const megabytes = (bytes: number) => Math.round(bytes / 2 ** 20);

/** One look at every reading there is, as a quality manager asks for it; in words how long it took and what it needed. */
export async function lookAtAll(quality: Client): Promise<string> {
  const [start, before] = [performance.now(), process.cpuUsage()];
  const idle = process.memoryUsage().rss;
  const asked = await quality.post('/signal-runs', { from: '2000-01-01', to: '2099-12-31' });
  if (asked.statusCode !== 201) throw new Error(asked.body);
  let run = asked.json<SignalRun>();
  let most = idle;
  while (run.state === 'waiting' || run.state === 'running') {
    await pause(200);
    most = Math.max(most, process.memoryUsage().rss);
    run = (await quality.get(`/signal-runs/${run.id}`)).json<SignalRun>();
  }
  if (run.state !== 'done' || !run.result) throw new Error(run.problem ?? run.state);
  const { raters, houses, readings, findings } = run.result;
  const { user, system } = process.cpuUsage(before);
  return `A look at ${readings} readings of ${raters} raters in ${houses} houses: ${((performance.now() - start) / 1000).toFixed(1)} s (${((user + system) / 1e6).toFixed(1)} s of computing, without the database), ${findings} findings, at most ${megabytes(most)} MB of memory, ${megabytes(idle)} MB before it`;
}
