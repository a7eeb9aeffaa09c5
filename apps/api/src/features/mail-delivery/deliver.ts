import { createTransport } from 'nodemailer';
import type { FastifyBaseLogger } from 'fastify';
import type { Database } from '../../kernel/database/database.ts';
import { claimMail, markFailed, markSent } from './claim.ts';

export interface Delivery {
  /** Sends one letter of the outbox unless it was sent; throws when it has to be tried again. */
  send(id: string): Promise<void>;
  close(): void;
}

interface Settings {
  smtpUrl: string;
  from: string;
  publicUrl: string;
}

/** Before a letter that was late, or was followed at once by another. */
const overtakenWords = 'This has changed again since: another letter tells how it stands now.\n\n';

const footer = (url: string) => `
--
Which mail you get: ${url}
This address is for you only and needs no account.
`;

/**
 * Hands letters to a mail server. A letter is sent at least once: when a process dies after the server took it and
 * before that was noted, it is sent again, with the same Message-ID, by which a mail program knows it for the same.
 */
export function smtpDelivery(database: Database, log: FastifyBaseLogger, settings: Settings): Delivery {
  // Altogether well below the time for which a letter is claimed.
  const timeouts = { connectionTimeout: 10_000, greetingTimeout: 10_000, socketTimeout: 20_000 };
  const transport = createTransport({ url: settings.smtpUrl, ...timeouts });
  return {
    async send(id) {
      const letter = await claimMail(database, id, settings.publicUrl);
      if (letter === undefined) return;
      if (letter === 'taken') throw new Error('Another process is sending this letter, or has just died.');
      try {
        await transport.sendMail({
          from: settings.from,
          to: letter.recipient,
          subject: letter.subject,
          text: `${letter.overtaken ? overtakenWords : ''}${letter.body}${letter.choicesUrl ? footer(letter.choicesUrl) : ''}`,
          // RFC 2369. The page behind it changes nothing by being opened, so that a programme that looks at links may.
          ...(letter.choicesUrl ? { list: { unsubscribe: letter.choicesUrl } } : {}),
          messageId: `<${letter.id}@countercheck>`,
        });
      } catch (error) {
        const reason = error instanceof Error ? error.message : String(error);
        log.warn({ mail: letter.id, attempts: letter.attempts, reason }, 'mail was not delivered');
        await markFailed(database, letter, reason);
        throw error;
      }
      await markSent(database, letter);
    },
    close: () => transport.close(),
  };
}
