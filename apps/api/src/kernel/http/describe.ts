import swagger from '@fastify/swagger';
import swaggerUi from '@fastify/swagger-ui';
import type { FastifyInstance } from 'fastify';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';

/** The API described from the contracts at /api/openapi.json, with a page to browse it at /api/docs. */
export async function describeApi(app: FastifyInstance): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Countercheck',
        version: '0.1.0',
        description:
          'Figures are in one unit per quantity, named in each field; see docs/units.md. Errors are problem+json.',
      },
      servers: [{ url: '/' }],
      components: {
        securitySchemes: { session: { type: 'apiKey', in: 'cookie', name: 'countercheck_session' } },
      },
    },
    transform: jsonSchemaTransform,
    transformObject: jsonSchemaTransformObject,
  });
  await app.register(swaggerUi, { routePrefix: '/api/docs', staticCSP: true });
  app.get('/api/openapi.json', { schema: { hide: true } }, async () => app.swagger());
}
