import { simpleParser, type ParsedMail } from 'mailparser';
import { SMTPServer } from 'smtp-server';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, testConfig, type TestApp } from '../../../../../tests/support/app.ts';
import { buildApp } from '../../app.ts';
import { system } from '../../kernel/actor.ts';
import { queueMail } from '../../kernel/records/mail.ts';
import { smtpDelivery } from './deliver.ts';

let service: TestApp;
const received: ParsedMail[] = [];
let refuse = false;
const smtp = new SMTPServer({
  authOptional: true,
  disabledCommands: ['STARTTLS'],
  onRcptTo: (_address, _session, done) => done(refuse ? new Error('mailbox full') : undefined),
  onData(stream, _session, done) {
    simpleParser(stream).then(
      (mail) => {
        received.push(mail);
        done();
      },
      (error: unknown) => done(error as Error),
    );
  },
});
let smtpUrl: string;

beforeAll(async () => {
  service = await startApp();
  await new Promise<void>((resolve) => smtp.listen(0, '127.0.0.1', resolve));
  smtpUrl = `smtp://127.0.0.1:${(smtp.server.address() as AddressInfo).port}`;
});
afterAll(async () => {
  await service.close();
  await new Promise<void>((resolve) => smtp.close(() => resolve()));
});

const queue = (...names: string[]) =>
  service.app.database.as(system, (db) =>
    queueMail(
      db,
      ...names.map((name) => ({
        recipient: `${name}@weir.example`,
        subject: `For ${name} — 25 Pa`,
        body: `See https://countercheck.example/access/${'a'.repeat(43)}\n`,
        about: 'test',
      })),
    ),
  );
const outbox = () =>
  service.app.database.as(system, (db) => db.outgoingMail.findMany({ orderBy: { createdAt: 'asc' } }));
const delivery = () =>
  smtpDelivery(service.app.database, service.app.log, { smtpUrl, from: 'Countercheck <out@weir.example>' });

it('sends each letter once, with two processes at it', async () => {
  const names = Array.from({ length: 24 }, (_, index) => `person${index}`);
  await queue(...names);
  const both = [delivery(), delivery()];
  await Promise.all(both.map((each) => each.run()));
  for (const each of both) each.close();
  const recipients = received.map((mail) => (Array.isArray(mail.to) ? '' : mail.to?.text));
  expect(recipients.toSorted()).toEqual(names.map((name) => `${name}@weir.example`).toSorted());
  expect(received[0]?.subject).toContain('25 Pa');
  expect(received[0]?.text).toContain(`/access/${'a'.repeat(43)}`);
  for (const letter of await outbox()) {
    expect(letter).toMatchObject({ attempts: 1, lastError: null });
    expect(letter.sentAt).not.toBeNull();
    // The link's secret has left the house and is not kept.
    expect(letter.body).not.toContain('aaaa');
  }
});

it('tries again later, and later still, when the server refuses', async () => {
  received.length = 0;
  refuse = true;
  await queue('late');
  const one = delivery();
  await one.run();
  await one.run();
  const waiting = (await outbox()).find(({ sentAt }) => sentAt === null);
  expect(waiting).toMatchObject({ attempts: 1 });
  expect(waiting?.lastError).toContain('mailbox full');
  expect(waiting!.nextTryAt.getTime()).toBeGreaterThan(Date.now() + 60_000);
  refuse = false;
  await service.app.database.as(system, (db) => db.$executeRaw`UPDATE outgoing_mail SET next_try_at = now()`);
  await one.run();
  one.close();
  expect(received).toHaveLength(1);
});

it('runs inside the service and stops with it', async () => {
  received.length = 0;
  const app = await buildApp(testConfig(service.urls.appUrl, { SMTP_URL: smtpUrl }));
  await app.ready();
  await queue('soon');
  await expect.poll(() => received.length, { timeout: 10_000 }).toBe(1);
  await app.close();
});
