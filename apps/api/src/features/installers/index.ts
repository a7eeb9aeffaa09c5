import type { FastifyInstance } from 'fastify';

export { freezeFigures } from './freeze.ts';

/** Those who installed, the links that open one house to them, and the figures they sign. */
export async function installersFeature(_app: FastifyInstance): Promise<void> {}
