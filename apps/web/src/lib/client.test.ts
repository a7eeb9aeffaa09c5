import { builders, houses, session } from '@countercheck/contracts';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { call, upload, urlOf } from './client.ts';
import { ApiProblem, fieldProblems, inWords } from './problem.ts';

const answer = (body: unknown, status = 200) =>
  vi.fn<typeof fetch>(() => Promise.resolve(new Response(JSON.stringify(body), { status })));

afterEach(() => vi.unstubAllGlobals());

describe('the address of a route', () => {
  it('fills in parameters and leaves out empty filters', () => {
    expect(urlOf(houses.events, { params: { id: 'a b' }, query: { page: 2 } })).toBe(
      '/api/houses/a%20b/events?page=2',
    );
    expect(urlOf(builders.list, { query: { search: '', page: undefined } })).toBe('/api/builders');
  });
});

describe('a call', () => {
  it('carries the header that shows it is from our page', async () => {
    const fetch = answer({ next: 'signed-in', me: null });
    vi.stubGlobal('fetch', fetch);
    await call(session.signIn, { body: { email: 'a@example.test', password: 'x' } });
    const init = fetch.mock.calls[0]?.[1];
    expect(init?.method).toBe('POST');
    expect(init?.headers).toMatchObject({ 'x-requested-with': 'countercheck' });
    expect(init?.body).toBe('{"email":"a@example.test","password":"x"}');
  });

  it('throws what the server said, with its fields', async () => {
    vi.stubGlobal(
      'fetch',
      answer(
        {
          type: 'about:blank',
          title: 'Some of what was entered cannot be used',
          status: 400,
          code: 'invalid-input',
          remedy: 'Correct the fields named and send again.',
          fields: [{ path: 'name', message: 'Please fill this in' }],
        },
        400,
      ),
    );
    const error = await call(session.me, {}).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(ApiProblem);
    expect(fieldProblems(error)).toEqual({ name: 'Please fill this in' });
  });

  it('has words for an answer that is none of the service', async () => {
    vi.stubGlobal('fetch', () => Promise.resolve(new Response('<html>', { status: 502 })));
    const error = await call(session.me, {}).catch((thrown: unknown) => thrown);
    expect(inWords(error).title).toBe('The service gave an answer that cannot be read');
  });

  it('sends the file of a multipart route after its fields', async () => {
    const fetch = answer({});
    vi.stubGlobal('fetch', fetch);
    const route = {
      method: 'POST',
      path: '/photos',
      body: session.signIn.body,
    } as unknown as typeof session.signIn;
    await upload(route, { body: { email: 'id', password: 'p' } }, new Blob(['x']), 'a.jpg');
    const form = fetch.mock.calls[0]?.[1]?.body as FormData;
    expect([...form.keys()]).toEqual(['email', 'password', 'file']);
  });
});
