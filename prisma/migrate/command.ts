import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Runs the work when the module was started as a program, and leaves it alone when it was imported. */
export async function runAsCommand(
  moduleUrl: string,
  work: (ownerUrl: string) => Promise<void>,
): Promise<void> {
  const started = process.argv[1];
  if (started === undefined || realpathSync(started) !== fileURLToPath(moduleUrl)) return;
  const url = process.env['DATABASE_URL'];
  if (!url) {
    console.error('DATABASE_URL is not set; it must name the database as its owner.');
    process.exitCode = 1;
    return;
  }
  try {
    await work(url);
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  }
}
