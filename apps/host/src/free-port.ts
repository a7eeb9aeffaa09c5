import { createServer } from 'node:net';

function tryPort(port: number, host: string): Promise<number | undefined> {
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => resolve(undefined));
    server.listen({ port, host, exclusive: true }, () => {
      const address = server.address();
      const found = typeof address === 'object' && address !== null ? address.port : undefined;
      server.close(() => resolve(found));
    });
  });
}

export async function isFree(port: number, host = '127.0.0.1'): Promise<boolean> {
  return (await tryPort(port, host)) !== undefined;
}

/** A port nobody listens on now, the preferred one when it can be had. */
export async function freePort(preferred?: number, host = '127.0.0.1'): Promise<number> {
  const port = (preferred ? await tryPort(preferred, host) : undefined) ?? (await tryPort(0, host));
  if (port === undefined) throw new Error(`No free port on ${host}.`);
  return port;
}
