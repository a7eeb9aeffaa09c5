import fastify, { LogController } from 'fastify';
import { expect, it } from 'vitest';
import { AppError } from '../problems/app-error.ts';
import { answerProblems } from '../problems/handler.ts';
import { logRequests } from './log.ts';

it('writes one line a request: id, actor, path without secrets, status, time and why it was refused', async () => {
  const lines: Record<string, unknown>[] = [];
  const stream = { write: (line: string) => void lines.push(JSON.parse(line)) };
  const logController = new LogController({ disableRequestLogging: true });
  const app = fastify({ logger: { stream }, logController, genReqId: () => 'request-1' });
  app.decorateRequest('actor', null as never);
  answerProblems(app);
  logRequests(app);
  app.get('/api/figures/:token', async (request) => {
    request.actor = { kind: 'user', id: 'u1', name: 'Somebody', role: 'office', builderId: null };
    throw new AppError('link-expired');
  });
  await app.inject('/api/figures/very-secret?search=somebody');
  expect(lines).toHaveLength(1);
  expect(lines[0]).toMatchObject({
    reqId: 'request-1',
    actor: 'office u1',
    method: 'GET',
    path: '/api/figures/…',
    status: 410,
    code: 'link-expired',
  });
  expect(lines[0]?.['ms']).toBeTypeOf('number');
  await app.inject('/api/%66igures/very-secret');
  expect(lines[1]).toMatchObject({ path: '/api/figures/…', status: 410 });
  expect(JSON.stringify(lines)).not.toContain('secret');
});
