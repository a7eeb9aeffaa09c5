import { createServer } from 'node:net';

/**
 * @param {number} port
 * @param {string} host
 * @returns {Promise<number | string>} the port that could be had, or why it could not
 */
function tryPort(port, host) {
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', (error) =>
      resolve(/** @type {NodeJS.ErrnoException} */ (error).code ?? error.message),
    );
    server.listen({ port, host, exclusive: true }, () => {
      const address = server.address();
      server.close(() =>
        resolve(address !== null && typeof address === 'object' ? address.port : 'EADDRINUSE'),
      );
    });
  });
}

/**
 * A browser asked for "localhost" may try either family, so a stranger on one of them already is in the way.
 * @param {number} port
 * @param {string} host
 * @returns {Promise<'free' | 'taken' | 'forbidden'>}
 */
export async function portState(port, host) {
  for (const address of new Set([host, '127.0.0.1', '::1'])) {
    const result = await tryPort(port, address);
    if (result === 'EADDRINUSE') return 'taken';
    if (result === 'EACCES') return 'forbidden';
  }
  return 'free';
}

/**
 * A port nobody listens on now, the preferred one when it can be had.
 * @param {number | undefined} [preferred]
 * @returns {Promise<number>}
 */
export async function freePort(preferred) {
  for (const port of [...(preferred ? [preferred] : []), 0]) {
    const result = await tryPort(port, '127.0.0.1');
    if (typeof result === 'number') return result;
  }
  throw new Error('This machine gives out no free port.');
}
