import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type * as z from 'zod';
import {
  linkAccesses,
  problemSchema,
  type Access,
  type LinkAccess,
  type RouteContract,
} from '@countercheck/contracts';
import type {
  Actor,
  CalendarActor,
  ContactActor,
  InstallerActor,
  RecipientActor,
  UserActor,
} from '../actor.ts';
import type { Database, Db } from '../database/database.ts';
import { AppError } from '../problems/app-error.ts';
import { once, refuseUnusedKey } from './once.ts';

type Output<Schema> = Schema extends z.ZodType ? z.output<Schema> : undefined;
type Input<Schema> = Schema extends z.ZodType ? z.input<Schema> : never;

/** Whom each kind of link speaks for. */
export interface LinkActors {
  'installer-link': InstallerActor;
  'readiness-link': ContactActor;
  'calendar-link': CalendarActor;
  'mail-link': RecipientActor;
}

/** The actor a route can meet, given who may use it. */
type ActorFor<C extends RouteContract> = C['access'][number] extends infer A
  ? A extends 'anyone'
    ? Actor
    : A extends LinkAccess
      ? LinkActors[A]
      : UserActor
  : never;

export interface Call<C extends RouteContract> {
  actor: ActorFor<C>;
  params: Output<C['params']>;
  query: Output<C['query']>;
  body: Output<C['body']>;
  request: FastifyRequest;
  reply: FastifyReply;
  database: Database;
}

/** What a browser's session says: somebody, or somebody whose second factor is still awaited. */
export type SignedIn =
  | { state: 'signed-in'; actor: UserActor; mustSetUpSecondFactor: boolean }
  | { state: 'second-factor-pending'; userId: string };

/** Who is asking, worked out once per request by the sign-in and link features. */
export interface ActorSource {
  user(request: FastifyRequest): Promise<SignedIn | undefined>;
  /** the holder of a personal link; refuses one that is unknown, withdrawn or has run out */
  link<K extends LinkAccess>(kind: K, token: string): Promise<LinkActors[K]>;
}

declare module 'fastify' {
  interface FastifyInstance {
    database: Database;
    actors: ActorSource;
  }
  interface FastifyRequest {
    actor: Actor;
  }
  interface FastifyContextConfig {
    contract?: RouteContract;
  }
}

async function admit(app: FastifyInstance, contract: RouteContract, request: FastifyRequest): Promise<Actor> {
  const access: readonly Access[] = contract.access;
  const link = linkAccesses.find((each) => access.includes(each));
  if (link) return app.actors.link(link, (request.params as { token: string }).token);
  const user = await app.actors.user(request);
  if (access.includes('anyone')) return user?.state === 'signed-in' ? user.actor : { kind: 'nobody' };
  if (!user) throw new AppError('sign-in-required');
  if (user.state === 'second-factor-pending') throw new AppError('second-factor-required');
  if (!access.includes(user.actor.role)) throw new AppError('not-allowed');
  if (user.mustSetUpSecondFactor && contract.tag !== 'Sign-in')
    throw new AppError('second-factor-setup-required');
  return user.actor;
}

/**
 * Registers a route of the contract. The handler runs after the actor is known and admitted; it opens its
 * own transaction with `database.as(actor, …)`, so that slow work (hashing, images) stays outside of it.
 */
export function implement<const C extends RouteContract>(
  app: FastifyInstance,
  contract: C,
  handler: (call: Call<C>) => Promise<Input<C['response']>>,
): void {
  const multipart = contract.form === 'multipart';
  const binary = contract.form === 'binary';
  app.route({
    method: contract.method,
    url: `/api${contract.path}`,
    config: { contract },
    schema: {
      tags: [contract.tag],
      summary: contract.summary,
      description: `Open to: ${contract.access.join(', ')}.${contract.errors ? ` Errors: ${contract.errors.join(', ')}.` : ''}`,
      ...(contract.params ? { params: contract.params } : {}),
      ...(contract.query ? { querystring: contract.query } : {}),
      ...(contract.body && !multipart && !binary ? { body: contract.body } : {}),
      ...(multipart ? { consumes: ['multipart/form-data'] } : {}),
      ...(binary ? { consumes: ['application/octet-stream'] } : {}),
      response: {
        ...(contract.form === 'bytes' ? {} : { [contract.status ?? 200]: contract.response }),
        default: problemSchema,
      },
    },
    onRequest: async (request) => {
      request.actor = await admit(app, contract, request);
      refuseUnusedKey(contract, request);
    },
    handler: async (request, reply) => {
      const answer = await handler({
        actor: request.actor as ActorFor<C>,
        params: request.params as Output<C['params']>,
        query: request.query as Output<C['query']>,
        body: request.body as Output<C['body']>,
        request,
        reply,
        database: app.database,
      });
      if (contract.form === 'bytes') return reply;
      return reply.code(contract.status ?? 200).send(answer);
    },
  });
}

/**
 * As `implement`, with the whole handler in one transaction as the actor: the usual case. What a GET tells is of
 * one moment; where the contract is keyed, a deed asked again with the same key is done once.
 */
export function implementInTransaction<const C extends RouteContract>(
  app: FastifyInstance,
  contract: C,
  handler: (call: Call<C> & { db: Db }) => Promise<Input<C['response']>>,
): void {
  implement(app, contract, (call) => {
    const transaction = contract.method === 'GET' ? call.database.read : call.database.as;
    return transaction(call.actor, (db) => once(db, contract, call.request, () => handler({ ...call, db })));
  });
}
