import { spawn } from 'node:child_process';

/**
 * @param {string[]} args a script and its arguments
 * @param {{ cwd: string, minutes: number, show: boolean }} options show passes the output on as it comes
 * @returns {Promise<{ code: number, output: string }>}
 */
export function runNode(args, { cwd, minutes, show }) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, args, {
      cwd,
      env: { ...process.env, NO_COLOR: '1', FORCE_COLOR: undefined },
      stdio: ['ignore', show ? 'inherit' : 'pipe', show ? 'inherit' : 'pipe'],
    });
    let output = '';
    const late = setTimeout(() => {
      output += `\nstopped after ${minutes} minutes`;
      child.kill('SIGTERM');
      setTimeout(() => child.kill('SIGKILL'), 10_000).unref();
    }, minutes * 60_000);
    child.stdout?.on('data', (chunk) => (output += chunk));
    child.stderr?.on('data', (chunk) => (output += chunk));
    child.on('close', (code) => {
      clearTimeout(late);
      resolve({ code: code ?? 1, output: output.trim() });
    });
  });
}
