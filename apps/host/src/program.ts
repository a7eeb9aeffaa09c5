import { spawn } from 'node:child_process';
import { Trouble } from '../bootstrap/trouble.mjs';

export interface Account {
  uid: number;
  gid: number;
}

interface ProgramOptions {
  account?: Account | undefined;
  cwd?: string;
  env?: NodeJS.ProcessEnv;
}

export interface ProgramResult {
  code: number;
  output: string;
}

/** Runs a program to its end and keeps what it wrote, so that a failure can be told in its own words. */
export function runProgram(
  file: string,
  args: readonly string[],
  options: ProgramOptions = {},
): Promise<ProgramResult> {
  return new Promise((resolve, reject) => {
    const child = spawn(file, args, {
      cwd: options.cwd,
      env: options.env ?? process.env,
      stdio: ['ignore', 'pipe', 'pipe'],
      ...options.account,
    });
    let output = '';
    child.stdout.on('data', (chunk: Buffer) => (output += chunk.toString()));
    child.stderr.on('data', (chunk: Buffer) => (output += chunk.toString()));
    child.on('error', reject);
    // Not 'close': a daemon started by the program may keep the pipes open for its whole life.
    child.on('exit', (code, signal) => {
      child.stdout.destroy();
      child.stderr.destroy();
      resolve({ code: code ?? (signal ? 128 : 1), output });
    });
  });
}

/** Like runProgram, for steps that cannot fail in normal use. */
export async function mustRun(
  file: string,
  args: readonly string[],
  options: ProgramOptions = {},
): Promise<string> {
  const { code, output } = await runProgram(file, args, options);
  if (code !== 0) throw new Trouble(`${file} ${args.join(' ')} ended with ${code}:\n${output.trim()}`);
  return output;
}
