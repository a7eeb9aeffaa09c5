import { spawn } from 'node:child_process';
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { simpleParser, type ParsedMail } from 'mailparser';
import pg from 'pg';
import { SMTPServer } from 'smtp-server';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import type { FastifyInstance } from 'fastify';
import { startApp, testConfig, type TestApp } from '../../../../../tests/support/app.ts';
import { buildApp } from '../../app.ts';
import { system } from '../../kernel/actor.ts';
import { queueMail } from '../../kernel/records/mail.ts';

let service: TestApp;
let owner: pg.Client;
let received: ParsedMail[] = [];
let refuse = false;
/** what the mail server does once it has a letter and before it says so */
let afterData: () => Promise<void> = async () => undefined;
const smtp = new SMTPServer({
  authOptional: true,
  disabledCommands: ['STARTTLS'],
  onRcptTo: (_address, _session, done) => done(refuse ? new Error('mailbox full') : undefined),
  onData(stream, _session, done) {
    simpleParser(stream)
      .then(async (mail) => {
        received.push(mail);
        await afterData();
      })
      .then(
        () => done(),
        (error: unknown) => done(error as Error),
      );
  },
});
// A process that is killed leaves its connection half open.
smtp.on('error', () => undefined);
let smtpUrl: string;
const started: FastifyInstance[] = [];

beforeAll(async () => {
  service = await startApp();
  owner = new pg.Client({ connectionString: service.urls.ownerUrl });
  await owner.connect();
  await new Promise<void>((resolve) => smtp.listen(0, '127.0.0.1', resolve));
  smtpUrl = `smtp://127.0.0.1:${(smtp.server.address() as AddressInfo).port}`;
});
beforeEach(() => {
  received = [];
  refuse = false;
  afterData = async () => undefined;
});
afterEach(async () => {
  await Promise.all(started.splice(0).map((app) => app.close()));
});
afterAll(async () => {
  await owner.end();
  await service.close();
  await new Promise<void>((resolve) => smtp.close(() => resolve()));
});

const letter = (name: string, more: { uniqueKey?: string } = {}) => ({
  recipient: `${name}@weir.example`,
  subject: `For ${name} — 25 Pa`,
  body: `See https://countercheck.example/access/${'a'.repeat(43)}\n`,
  about: 'test',
  ...more,
});
const queue = (...names: string[]) =>
  service.app.database.as(system, (db) => queueMail(db, ...names.map((name) => letter(name))));
const outbox = (name?: string) =>
  service.app.database.as(system, (db) =>
    db.outgoingMail.findMany({
      where: name ? { recipient: `${name}@weir.example` } : {},
      orderBy: { createdAt: 'asc' },
    }),
  );
const jobs = async () =>
  (
    await owner.query<{ id: string; state: string; late: boolean }>(
      `SELECT id, state::text, start_after > now() + interval '30 seconds' AS late FROM pgboss.job`,
    )
  ).rows;
const jobOf = async (name: string) => {
  const [row] = await outbox(name);
  return (await jobs()).find(({ id }) => id === row?.id);
};
async function deliverer(): Promise<FastifyInstance> {
  const app = await buildApp(testConfig(service.urls.appUrl, { SMTP_URL: smtpUrl }));
  started.push(app);
  await app.ready();
  return app;
}
const patience = { timeout: 15_000, interval: 50 };

it('sends each letter once, with two processes at it', async () => {
  const names = Array.from({ length: 24 }, (_, index) => `person${index}`);
  await queue(...names);
  await Promise.all([deliverer(), deliverer()]);
  await expect.poll(async () => (await outbox()).filter(({ sentAt }) => sentAt).length, patience).toBe(24);
  const recipients = received.map((mail) => (Array.isArray(mail.to) ? '' : mail.to?.text));
  expect(recipients.toSorted()).toEqual(names.map((name) => `${name}@weir.example`).toSorted());
  expect(received[0]?.subject).toContain('25 Pa');
  expect(received[0]?.text).toContain(`/access/${'a'.repeat(43)}`);
  for (const row of await outbox()) {
    expect(row).toMatchObject({ attempts: 1, lastError: null });
    // The link's secret has left the house and is not kept.
    expect(row.body).not.toContain('aaaa');
  }
  await expect
    .poll(async () => (await jobs()).every(({ state }) => state === 'completed'), patience)
    .toBe(true);
});

it('tries again later when the server refuses', async () => {
  refuse = true;
  await queue('late');
  await deliverer();
  await expect.poll(() => jobOf('late'), patience).toMatchObject({ state: 'retry', late: true });
  expect((await outbox('late'))[0]).toMatchObject({ attempts: 1, sentAt: null });
  expect((await outbox('late'))[0]?.lastError).toContain('mailbox full');
  refuse = false;
  await owner.query(`UPDATE pgboss.job SET start_after = now() WHERE state = 'retry'`);
  await expect.poll(() => received.length, patience).toBe(1);
});

it('says of a letter that a newer one about the same visit has overtaken it', async () => {
  const write = (name: string, visit: string, sequence: number) =>
    service.app.database.as(system, (db) =>
      queueMail(db, letter(name, { uniqueKey: `visit/${visit}/${sequence}/visit-moved/${name}` })),
    );
  await write('twice-moved', 'one', 1);
  await write('twice-moved', 'two', 1);
  await write('twice-moved', 'one', 2);
  await write('once-moved', 'one', 2);
  await deliverer();
  await expect.poll(() => received.length, patience).toBe(4);
  const overtaken = received.filter(({ text }) => text?.startsWith('This has changed again since'));
  const [first] = await outbox('twice-moved');
  expect(overtaken.map(({ messageId }) => messageId)).toEqual([`<${first!.id}@countercheck>`]);
});

it('carries for a contact a link to what it wants to hear of, which stands nowhere else', async () => {
  const { builder } = service.company;
  const contact = await service.app.database.as(system, (db) =>
    db.builderContact.create({ data: { builderId: builder.id, name: 'Foreman' } }),
  );
  await service.app.database.as(system, (db) =>
    queueMail(db, { ...letter('foreman'), contactId: contact.id }, letter('somebody')),
  );
  await deliverer();
  await expect.poll(() => received.length, patience).toBe(2);
  const mailOf = (name: string) =>
    received.find(({ to }) => !Array.isArray(to) && to?.text.startsWith(name))!;
  const url = /Which mail you get: (\S+)/.exec(mailOf('foreman').text ?? '')?.[1];
  const list = mailOf('foreman').headers.get('list') as { unsubscribe?: { url?: string } } | undefined;
  expect(list?.unsubscribe?.url).toBe(url);
  const path = new URL(url!).pathname;
  expect((await service.stranger.get(path)).json()).toMatchObject({ name: 'Foreman', notify: true });
  expect(mailOf('somebody').text).not.toContain('Which mail you get');
  expect(mailOf('somebody').headers.get('list')).toBeUndefined();
  const token = path.split('/').at(-1)!;
  const kept = JSON.stringify([await outbox(), (await owner.query('SELECT * FROM contact_mail_links')).rows]);
  expect(kept).not.toContain(token);
});

it('is written with what causes it or not at all, and once for one key', async () => {
  const before = (await jobs()).length;
  const failing = service.app.database.as(system, async (db) => {
    await queueMail(db, letter('never'));
    throw new Error('the deed went wrong');
  });
  await expect(failing).rejects.toThrow('went wrong');
  expect(await outbox('never')).toEqual([]);
  expect(await jobs()).toHaveLength(before);
  for (let time = 0; time < 2; time += 1)
    await service.app.database.as(system, (db) => queueMail(db, letter('once', { uniqueKey: 'a deed' })));
  expect(await outbox('once')).toHaveLength(1);
  await deliverer();
  await expect.poll(() => received.length, patience).toBe(1);
  await expect
    .poll(async () => (await jobs()).every(({ state }) => state === 'completed'), patience)
    .toBe(true);
  expect(received).toHaveLength(1);
});

it('sends again, known as the same, what a process had handed over when it was killed', async () => {
  await queue('twice');
  const child = spawn(process.execPath, ['--import', 'tsx', 'apps/api/src/main.ts'], {
    stdio: 'ignore',
    env: {
      ...process.env,
      ...{ DATABASE_URL: service.urls.appUrl, SMTP_URL: smtpUrl, PORT: '0', HOST: '127.0.0.1' },
      ...{ SECRET_KEY: 'a key for tests only, long enough to be one', LOG_LEVEL: 'silent' },
    },
  });
  const ended = once(child, 'exit');
  // The server has the letter; noting that is kept waiting until the process is dead.
  afterData = async () => {
    await owner.query('BEGIN');
    await owner.query('SELECT 1 FROM outgoing_mail WHERE recipient = $1 FOR UPDATE', ['twice@weir.example']);
    setTimeout(() => child.kill('SIGKILL'), 300);
  };
  await ended;
  await owner.query('ROLLBACK');
  afterData = async () => undefined;
  expect(received).toHaveLength(1);
  expect((await outbox('twice'))[0]).toMatchObject({ attempts: 1, sentAt: null });
  expect(await jobOf('twice')).toMatchObject({ state: 'active' });

  // As it stands when the time has passed after which the process counts as dead.
  await owner.query(`UPDATE pgboss.job SET started_on = now() - interval '6 minutes' WHERE state = 'active'`);
  await owner.query(`UPDATE outgoing_mail SET next_try_at = now() WHERE sent_at IS NULL`);
  await deliverer();
  await expect.poll(async () => (await jobOf('twice'))?.state, patience).toBe('retry');
  await owner.query(`UPDATE pgboss.job SET start_after = now() WHERE state = 'retry'`);
  await expect.poll(async () => (await outbox('twice'))[0]?.sentAt ?? null, patience).not.toBeNull();
  expect(received).toHaveLength(2);
  expect(received[1]?.messageId).toBe(received[0]?.messageId);
});
