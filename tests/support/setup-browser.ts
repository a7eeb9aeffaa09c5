import { rm } from 'node:fs/promises';
import type { TestProject } from 'vitest/node';
import { findChromium } from './chromium.ts';

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const { chromium, folder } = await findChromium();
  project.provide('chromium', chromium);
  return () => rm(folder, { recursive: true, force: true });
}
