import { createServer, request, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';

/** What happens to a request of the API on its way. */
export type Fault = 'none' | 'cut' | 'lose-answer' | 'broken' | 'double' | 'slow';

export interface FaultProxy {
  url: string;
  /** a fault for every request from now on, or a draw for each */
  set(fault: Fault | ((url: string) => Fault)): void;
  /** what a file is from now on, as after the service was updated */
  serve(path: string, change: ((body: string) => string) | null): void;
  /** methods and paths of what reached the service, in order */
  asked: string[];
  /** how often each fault has struck */
  struck: Record<Fault, number>;
  /** bytes that went each way, with their heads */
  bytes: { up: number; down: number };
  close(): Promise<void>;
}

const slowMs = 400;

/** A network between the browser and the service that can be cut, slow, deaf on the way back or doubling. */
export async function faultProxy(target: string): Promise<FaultProxy> {
  let fault: (url: string) => Fault = () => 'none';
  const struck: FaultProxy['struck'] = {
    ...{ none: 0, cut: 0, 'lose-answer': 0, broken: 0, double: 0, slow: 0 },
  };
  const bytes = { up: 0, down: 0 };
  const asked: string[] = [];
  const changed = new Map<string, (body: string) => string>();
  const to = new URL(target);

  /** What is to be changed on its way comes whole, and not packed. */
  function asPlain({ url = '', headers }: IncomingMessage): IncomingMessage['headers'] {
    if (!changed.has(url)) return headers;
    const packed = ['accept-encoding', 'if-none-match', 'if-modified-since'];
    return Object.fromEntries(Object.entries(headers).filter(([name]) => !packed.includes(name)));
  }

  function forward(
    incoming: IncomingMessage,
    body: Buffer,
  ): Promise<{ head: IncomingMessage; body: Buffer }> {
    return new Promise((resolve, reject) => {
      const outgoing = request(
        {
          ...{ host: to.hostname, port: to.port, method: incoming.method, path: incoming.url },
          headers: asPlain(incoming),
        },
        (head) => {
          const pieces: Buffer[] = [];
          head.on('data', (piece: Buffer) => pieces.push(piece));
          head.on('end', () => resolve({ head, body: Buffer.concat(pieces) }));
          head.on('error', reject);
        },
      );
      outgoing.on('error', reject);
      outgoing.end(body);
    });
  }

  async function pass(incoming: IncomingMessage, answer: ServerResponse): Promise<void> {
    const pieces: Buffer[] = [];
    for await (const piece of incoming) pieces.push(piece as Buffer);
    const body = Buffer.concat(pieces);
    const url = incoming.url ?? '';
    const what = fault(url);
    struck[what] += 1;
    if (what === 'cut') return void incoming.socket.destroy();
    if (what === 'broken') {
      answer.writeHead(500, { 'content-type': 'text/plain' });
      return void answer.end('broken on the way');
    }
    if (what === 'slow') await new Promise((resolve) => setTimeout(resolve, slowMs));
    if (what === 'double') await forward(incoming, body);
    asked.push(`${incoming.method} ${url}`);
    const got = await forward(incoming, body);
    const change = changed.get(url);
    if (change && got.head.statusCode === 200) {
      got.body = Buffer.from(change(got.body.toString('utf8')));
      got.head.headers['content-length'] = String(got.body.length);
      delete got.head.headers['etag'];
    }
    bytes.up += body.length;
    bytes.down += got.body.length;
    if (what === 'lose-answer') return void incoming.socket.destroy();
    answer.writeHead(got.head.statusCode ?? 502, got.head.headers);
    answer.end(got.body);
  }

  const open = new Set<Socket>();
  const server = createServer((incoming, answer) => {
    pass(incoming, answer).catch(() => incoming.socket.destroy());
  });
  server.on('connection', (socket) => {
    open.add(socket);
    socket.on('close', () => open.delete(socket));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}`,
    set: (next) => {
      fault = typeof next === 'function' ? next : () => next;
    },
    serve: (path, change) => void (change ? changed.set(path, change) : changed.delete(path)),
    asked,
    struck,
    bytes,
    close: async () => {
      for (const socket of open) socket.destroy();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
