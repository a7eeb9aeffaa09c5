import type { FastifyInstance } from 'fastify';
import { validatorCompiler } from 'fastify-type-provider-zod';
import type * as z from 'zod';

/**
 * Requests are checked and answers are parsed by the contract. What a contract does not name does not
 * leave the service, and a change (PATCH) touches only the keys that were sent: a schema's defaults would
 * otherwise fill in, and so overwrite, everything that was left out.
 */
export function speakContracts(app: FastifyInstance): void {
  app.setValidatorCompiler((route) => {
    const check = validatorCompiler(route as never);
    if (route.method !== 'PATCH' || route.httpPart !== 'body') return check as never;
    return (data: unknown) => {
      const result = (check as (data: unknown) => { value?: object; error?: Error })(data);
      if (result.error || typeof data !== 'object' || data === null) return result as never;
      return { value: Object.fromEntries(Object.entries(result.value ?? {}).filter(([key]) => key in data)) };
    };
  });
  app.setSerializerCompiler(({ schema }) => {
    const answer = schema as unknown as z.ZodType;
    return (data) => JSON.stringify(answer.parse(data));
  });
}
