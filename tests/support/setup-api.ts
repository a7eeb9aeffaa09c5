import { generatePrismaClient } from '@countercheck/host/prisma-client';
import type { TestProject } from 'vitest/node';
import { prepareDatabases } from './prepare.ts';

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  await generatePrismaClient();
  const [databases, stop] = await prepareDatabases({ demo: false });
  project.provide('databases', databases);
  return stop;
}
