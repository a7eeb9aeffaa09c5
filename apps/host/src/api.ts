import { spawn, type ChildProcess } from 'node:child_process';
import { createWriteStream } from 'node:fs';
import { join } from 'node:path';
import { root } from './places.ts';

interface ApiOptions {
  port: number;
  host: string;
  publicUrl: string;
  /** The app role's URL, never the owner's. */
  databaseUrl: string;
  webDist: string;
  env?: NodeJS.ProcessEnv;
  logFile?: string;
}

export interface Api {
  url: string;
  /** Settles when the process has ended, wanted or not. */
  ended: Promise<number>;
  lastWords(): string;
  stop(): Promise<void>;
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** Starts one API process and waits until it answers. */
export async function startApi(options: ApiOptions): Promise<Api> {
  const child: ChildProcess = spawn(
    process.execPath,
    ['--import', 'tsx', '--import', join(root, 'apps/host/src/stop-with-parent.mjs'), 'apps/api/src/main.ts'],
    {
      cwd: root,
      stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
      env: {
        ...process.env,
        COOKIE_SECURE: 'false',
        ...options.env,
        PORT: String(options.port),
        HOST: options.host,
        PUBLIC_URL: options.publicUrl,
        DATABASE_URL: options.databaseUrl,
        WEB_DIST: options.webDist,
      },
    },
  );
  const log = options.logFile ? createWriteStream(options.logFile, { flags: 'a', mode: 0o600 }) : undefined;
  let tail = '';
  const keep = (chunk: Buffer) => {
    tail = (tail + chunk.toString()).slice(-6000);
    log?.write(chunk);
  };
  child.stdout?.on('data', keep);
  child.stderr?.on('data', keep);

  let over = false;
  const ended = new Promise<number>((resolve) => {
    child.on('error', (error) => keep(Buffer.from(`${error.message}\n`)));
    child.on('close', (code, signal) => {
      over = true;
      log?.end();
      resolve(code ?? (signal ? 128 : 1));
    });
  });
  const stop = async () => {
    child.kill('SIGTERM');
    const late = setTimeout(() => child.kill('SIGKILL'), 10_000);
    await ended;
    clearTimeout(late);
  };

  const url = `http://127.0.0.1:${options.port}`;
  const deadline = Date.now() + 90_000;
  while (!(await answers(url))) {
    if (over) throw new Error(`The API ended while starting:\n${tail.trim()}`);
    if (Date.now() > deadline) {
      await stop();
      throw new Error(`The API did not answer at ${url}/api/health within 90 s:\n${tail.trim()}`);
    }
    await pause(100);
  }
  return { url, ended, lastWords: () => tail.trim(), stop };
}

async function answers(url: string): Promise<boolean> {
  try {
    const response = await fetch(`${url}/api/health`, { signal: AbortSignal.timeout(2000) });
    return response.ok;
  } catch {
    return false;
  }
}
