import { generatePrismaClient } from '@countercheck/host/prisma-client';
import { buildWeb } from '@countercheck/host/web-build';
import type { TestProject } from 'vitest/node';
import { prepareDatabases } from './prepare.ts';

/** For tests of the whole service: the web app built, and the demo company ready to be copied. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  await generatePrismaClient();
  await buildWeb();
  const [databases, stop] = await prepareDatabases({ demo: true });
  project.provide('databases', databases);
  return stop;
}
