import { portState } from './ports.mjs';
import { Trouble } from './trouble.mjs';

/** @typedef {{ port: number, host: string, url: string }} Address */

/**
 * @param {NodeJS.ProcessEnv} env
 * @returns {Address}
 */
export function readAddress(env) {
  const port = Number(env['PORT'] || 4300);
  if (!Number.isInteger(port) || port < 1 || port > 65535) {
    throw new Trouble(`PORT is "${env['PORT']}"; it has to be a whole number from 1 to 65535.`);
  }
  // Only this machine, because the demo's sign-ins are printed for everyone to read.
  const host = env['HOST'] || '127.0.0.1';
  return { port, host, url: env['PUBLIC_URL'] || `http://localhost:${port}` };
}

/**
 * @param {Address} address
 * @param {boolean} afterKill an API whose starter was killed needs a moment to notice and let go of the port
 */
export async function claimPort({ port, host }, afterKill) {
  let state = await portState(port, host);
  for (let tries = 0; afterKill && state === 'taken' && tries < 50; tries += 1) {
    await new Promise((resolve) => setTimeout(resolve, 100));
    state = await portState(port, host);
  }
  if (state === 'free') return;
  const other = `PORT=${port === 4310 ? 4320 : 4310} npm start`;
  throw new Trouble(
    state === 'taken'
      ? `Port ${port} is already in use by another program; stop that program or choose another port: ${other}`
      : `This account may not listen on port ${port}; choose another port: ${other}`,
  );
}
