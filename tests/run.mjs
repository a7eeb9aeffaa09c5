// Like the start, this uses nothing but Node itself until the dependencies are there.
import { fileURLToPath } from 'node:url';
import { install, isInstalled } from '../apps/host/bootstrap/install.mjs';
import { requireNode } from '../apps/host/bootstrap/node-version.mjs';
import { secondsSince, step } from '../apps/host/bootstrap/steps.mjs';
import { Trouble } from '../apps/host/bootstrap/trouble.mjs';
import { inTurn } from './run/in-turn.mjs';
import { runStage } from './run/stage.mjs';
import { stages } from './run/stages.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));

async function main() {
  requireNode();
  const wanted = process.argv.slice(2);
  const unknown = wanted.filter((name) => !stages.some((stage) => stage.name === name));
  if (unknown.length > 0) {
    throw new Trouble(
      `No stage is called ${unknown.join(', ')}; there are ${stages.map((s) => s.name).join(', ')}.`,
    );
  }
  if (!isInstalled(root)) await step('Dependencies installed', () => install(root));
  const { register } = await import('tsx/esm/api');
  const unregister = register();
  const { generatePrismaClient } = await import('../apps/host/src/prisma-client.ts');
  await step('Database client generated', generatePrismaClient);
  await unregister();

  const start = performance.now();
  /** @type {string[]} */
  const lines = [];
  const total = { passed: 0, failed: 0 };
  await inTurn(
    stages.filter(({ name }) => wanted.length === 0 || wanted.includes(name)),
    async (stage) => {
      console.log(`\n== ${stage.name}: ${stage.what}`);
      const since = performance.now();
      const { passed, failed, note } = await runStage(stage, root);
      total.passed += passed;
      total.failed += failed;
      lines.push(
        `${failed === 0 ? '✓' : '✗'} ${stage.name.padEnd(12)}${secondsSince(since).padStart(8)}   ${note}`,
      );
      console.log(lines.at(-1));
    },
  );
  console.log(`\n${lines.join('\n')}\n\nin ${secondsSince(start)}`);
  console.log(`${total.passed} passed, ${total.failed} failed`);
  process.exitCode = total.failed === 0 ? 0 : 1;
}

main().catch((error) => {
  console.error(error instanceof Trouble ? error.message : error);
  console.log('0 passed, 1 failed');
  process.exitCode = 1;
});
