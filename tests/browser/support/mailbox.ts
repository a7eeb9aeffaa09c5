import { simpleParser, type ParsedMail } from 'mailparser';
import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';

export interface Mailbox {
  url: string;
  /** in the order in which they came, read with a programme of others */
  letters: ParsedMail[];
  close(): Promise<void>;
}

/** A real mail server that takes everything. */
export async function openMailbox(): Promise<Mailbox> {
  const letters: ParsedMail[] = [];
  const smtp = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onData(stream, _session, done) {
      simpleParser(stream).then(
        (mail) => {
          letters.push(mail);
          done();
        },
        (error: unknown) => done(error as Error),
      );
    },
  });
  // A service that is stopped leaves its connection half open.
  smtp.on('error', () => undefined);
  await new Promise<void>((resolve) => smtp.listen(0, '127.0.0.1', resolve));
  return {
    url: `smtp://127.0.0.1:${(smtp.server.address() as AddressInfo).port}`,
    letters,
    close: () => new Promise<void>((resolve) => smtp.close(() => resolve())),
  };
}

export const recipientOf = ({ to }: ParsedMail) =>
  (Array.isArray(to) ? to : to ? [to] : [])
    .flatMap(({ value }) => value.map(({ address }) => address))
    .join();
