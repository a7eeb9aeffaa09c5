// Until the dependencies are there this may use nothing but Node itself.
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { claimPort, readAddress } from './bootstrap/address.mjs';
import { Cleanup } from './bootstrap/cleanup.mjs';
import { install, isInstalled } from './bootstrap/install.mjs';
import { requireNode } from './bootstrap/node-version.mjs';
import { takeRunLock } from './bootstrap/run-lock.mjs';
import { stopOnSignals } from './bootstrap/signals.mjs';
import { step } from './bootstrap/steps.mjs';
import { Trouble } from './bootstrap/trouble.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const data = resolve(process.env['COUNTERCHECK_DATA'] ?? join(root, '.data'));
const cleanup = new Cleanup();

async function start() {
  requireNode();
  const address = readAddress(process.env);
  const lock = takeRunLock(join(data, 'run.json'), address.url);
  cleanup.add(lock.release);
  await claimPort(address, lock.afterKill);

  console.log('Starting Countercheck');
  if (!isInstalled(root))
    await step('Dependencies installed', () => install(root, cleanup.signal), cleanup.signal);
  const { register } = await import('tsx/esm/api');
  register();
  const { run } = await import('./src/run.ts');
  await run(address, cleanup);
}

const starting = start();
stopOnSignals(cleanup, starting);
starting.catch(async (error) => {
  // Whoever asked for the stop also clears up.
  if (cleanup.signal.aborted) return;
  await cleanup.run();
  console.error(error instanceof Trouble ? error.message : error);
  process.exit(1);
});
