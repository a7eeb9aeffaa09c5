import type { FastifyRequest } from 'fastify';
import type * as z from 'zod';
import { AppError, invalid } from '../../kernel/problems/app-error.ts';

/** One file, what it is called there, and the fields beside it, these checked by the contract's own schema. */
export async function receiveUpload<Fields extends z.ZodType>(
  request: FastifyRequest,
  fields: Fields,
): Promise<{ file: Buffer; name: string; fields: z.output<Fields> }> {
  let file: Buffer | undefined;
  let name = '';
  const given: Record<string, string> = {};
  for await (const part of request.parts()) {
    if (part.type === 'file') {
      file = await part.toBuffer();
      name = part.filename;
    } else if (typeof part.value === 'string') given[part.fieldname] = part.value;
  }
  if (!file || file.length === 0) throw invalid('file', 'Choose a file');
  const result = fields.safeParse(given);
  if (!result.success) {
    const problems = result.error.issues.map(({ path, message }) => ({ path: path.join('.'), message }));
    throw new AppError('invalid-input', undefined, problems);
  }
  return { file, name, fields: result.data };
}
