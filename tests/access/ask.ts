import { randomUUID } from 'node:crypto';
import { linkAccesses, type LinkAccess, type RouteContract } from '@countercheck/contracts';
import { sessionStore } from '../../apps/api/src/features/session/store.ts';
import { system } from '../../apps/api/src/kernel/actor.ts';
import { newToken } from '../../apps/api/src/kernel/secrets/tokens.ts';
import type { TestApp } from '../support/app.ts';
import type { Who } from '../support/fixture.ts';
import type { Column } from './matrix.ts';
import type { Asked } from './requests.ts';

const people: Record<Column, Who | undefined> = {
  ...{ nobody: undefined, office: 'office', rater: 'rater', other: 'otherRater', quality: 'quality' },
  ...{ builder: 'builder', stranger: 'otherBuilder', admin: 'administrator' },
  ...{ link: undefined, half: 'office', due: 'administrator' },
};

/** A session for this one request: some requests end it. */
async function cookieOf({ app, company }: TestApp, column: Column): Promise<string | undefined> {
  const who = people[column];
  if (!who) return undefined;
  const token = newToken();
  const session = { userId: company.users[who].id, secondFactorPassed: column !== 'half' };
  const expiresAt = new Date(Date.now() + 3_600_000);
  await sessionStore(app.database).put(token, { ...session, expiresAt }, null);
  return `countercheck_session=${token}`;
}

function upload(fields: Record<string, string>, file: Buffer) {
  const boundary = `----${randomUUID()}`;
  const part = (head: string) =>
    Buffer.from(`--${boundary}\r\nContent-Disposition: form-data; ${head}\r\n\r\n`);
  const pieces = Object.entries(fields).flatMap(([name, value]) => [
    part(`name="${name}"`),
    Buffer.from(`${value}\r\n`),
  ]);
  const head = part('name="file"; filename="a.png"\r\nContent-Type: image/png');
  const payload = Buffer.concat([...pieces, head, file, Buffer.from(`\r\n--${boundary}--\r\n`)]);
  return { payload, headers: { 'content-type': `multipart/form-data; boundary=${boundary}` } };
}

/** Asks a route as the column's person, who has a link's token only where the column is the link's holder. */
export async function ask(
  service: TestApp,
  contract: RouteContract,
  column: Column,
  { params, body, query, form, bytes }: Asked,
  image: Buffer,
) {
  const forLink = contract.access.some((each) => linkAccesses.includes(each as LinkAccess));
  const given = forLink && column !== 'link' ? { token: newToken() } : (params ?? {});
  const path = contract.path.replace(/:(\w+)/g, (_, name: string) => given[name] ?? 'missing');
  const cookie = await cookieOf(service, column);
  const octets = { 'content-type': 'application/octet-stream' };
  const sent = bytes
    ? { payload: bytes, query: { offset: '0' }, headers: octets }
    : form
      ? upload(form, image)
      : body
        ? { payload: body, headers: {} }
        : { headers: {} };
  const due = (requireSecondFactor: boolean) =>
    service.app.database.as(system, (db) => db.company.updateMany({ data: { requireSecondFactor } }));
  if (column === 'due') await due(true);
  const answer = await service.app.inject({
    method: contract.method,
    url: `/api${path}`,
    ...(query ? { query } : {}),
    ...sent,
    headers: { 'x-requested-with': 'countercheck', ...sent.headers, ...(cookie ? { cookie } : {}) },
  });
  if (column === 'due') await due(false);
  return answer;
}
