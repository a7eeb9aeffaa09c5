import type { FastifyInstance, InjectOptions, LightMyRequestResponse } from 'fastify';
import { buildApp, readConfig } from '../../apps/api/src/index.ts';
import { freshDatabase, type FreshDatabase } from './database.ts';
import { password, smallCompany, type Fixture, type Person, type Who } from './fixture.ts';

export interface Client {
  get(url: string): Promise<LightMyRequestResponse>;
  post(url: string, body?: object): Promise<LightMyRequestResponse>;
  put(url: string, body?: object): Promise<LightMyRequestResponse>;
  patch(url: string, body?: object): Promise<LightMyRequestResponse>;
  delete(url: string): Promise<LightMyRequestResponse>;
  /** for what the others cannot say: files, headers */
  send(options: InjectOptions): Promise<LightMyRequestResponse>;
}

export interface TestApp {
  app: FastifyInstance;
  urls: FreshDatabase;
  company: Fixture;
  /** a client with the cookie of that person; signs in once a person */
  as(who: Who): Promise<Client>;
  /** a client without any cookie: a stranger, or an installer with his link */
  stranger: Client;
  close(): Promise<void>;
}

export const testConfig = (databaseUrl: string, env: Record<string, string> = {}) =>
  readConfig({
    DATABASE_URL: databaseUrl,
    DATABASE_POOL: '6',
    SECRET_KEY: 'a key for tests only, long enough to be one',
    PUBLIC_URL: 'http://countercheck.example',
    LOG_LEVEL: 'silent',
    RATE_LIMIT: '1000000',
    ...env,
  });

function client(app: FastifyInstance, headers: Record<string, string>): Client {
  const send = (options: InjectOptions) =>
    app.inject({
      ...options,
      headers: { 'x-requested-with': 'countercheck', ...headers, ...options.headers },
    });
  const withBody = (method: 'POST' | 'PUT' | 'PATCH') => (url: string, body?: object) =>
    send({ method, url: `/api${url}`, ...(body ? { payload: body } : {}) });
  return {
    get: (url) => send({ method: 'GET', url: `/api${url}` }),
    post: withBody('POST'),
    put: withBody('PUT'),
    patch: withBody('PATCH'),
    delete: (url) => send({ method: 'DELETE', url: `/api${url}` }),
    send,
  };
}

/** Signs in as people do and keeps the cookie. */
export async function signedIn(
  app: FastifyInstance,
  person: Pick<Person, 'email'>,
  secret = password,
): Promise<Client> {
  const answer = await client(app, {}).post('/session', { email: person.email, password: secret });
  if (answer.statusCode !== 200) throw new Error(`${person.email} cannot sign in: ${answer.body}`);
  return client(app, { cookie: answer.cookies.map(({ name, value }) => `${name}=${value}`).join('; ') });
}

/** The service without a port, on a database of its own with the small company in it. */
export async function startApp(env: Record<string, string> = {}): Promise<TestApp> {
  const urls = await freshDatabase();
  const app = await buildApp(testConfig(urls.appUrl, env));
  const company = await smallCompany(app.database);
  await app.ready();
  const clients = new Map<Who, Promise<Client>>();
  return {
    app,
    urls,
    company,
    as(who) {
      const known = clients.get(who) ?? signedIn(app, company.users[who]);
      clients.set(who, known);
      return known;
    },
    stranger: client(app, {}),
    async close() {
      await app.close();
      await urls.drop();
    },
  };
}
