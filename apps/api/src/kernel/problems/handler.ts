import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import { databaseProblem } from '../database/faults.ts';
import { AppError } from './app-error.ts';

function send(reply: FastifyReply, problem: AppError, requestId: string): FastifyReply {
  if (problem.retryAfterSeconds !== undefined)
    void reply.header('retry-after', String(problem.retryAfterSeconds));
  return reply.code(problem.status).type('application/problem+json').send(problem.toProblem(requestId));
}

function translate(error: FastifyError): AppError {
  if (hasZodFastifySchemaValidationErrors(error)) {
    const fields = error.validation.map((issue) => ({
      path: issue.instancePath.replace(/^\//, '').replaceAll('/', '.'),
      message: issue.message ?? 'This cannot be used',
    }));
    return new AppError('invalid-input', undefined, fields);
  }
  const known = databaseProblem(error);
  if (known) return known;
  if (error.statusCode === 429) return new AppError('too-many-requests');
  if (error.code === 'FST_REQ_FILE_TOO_LARGE' || error.code === 'FST_ERR_CTP_BODY_TOO_LARGE')
    return new AppError('file-too-large');
  if (error.statusCode === 415) return new AppError('invalid-input', 'Send JSON.');
  if (error.statusCode !== undefined && error.statusCode >= 400 && error.statusCode < 500)
    return new AppError('invalid-input', error.message);
  return new AppError('internal-error');
}

/** Every error leaves as problem+json with a code of the registry; what we did not foresee is logged whole. */
export function answerProblems(app: FastifyInstance): void {
  app.setErrorHandler((error: FastifyError, request: FastifyRequest, reply) => {
    const problem = translate(error);
    if (problem.status >= 500) request.log.error({ err: error }, problem.code);
    request.refusal = problem.code;
    return send(reply, problem, request.id);
  });
  app.setNotFoundHandler((request, reply) =>
    send(reply, new AppError('not-found', 'There is no such address.'), request.id),
  );
}
