import { createTransport } from 'nodemailer';
import type { FastifyBaseLogger } from 'fastify';
import type { Database } from '../../kernel/database/database.ts';
import { claimMail, markFailed, markSent, type Claimed } from './claim.ts';

export interface Delivery {
  /** Sends what is due now; resolves when all of it was tried. */
  run(): Promise<void>;
  close(): void;
}

interface Settings {
  smtpUrl: string;
  from: string;
}

const batch = 10;

export function smtpDelivery(database: Database, log: FastifyBaseLogger, settings: Settings): Delivery {
  // Altogether well below the time after which another process would take the letter over.
  const timeouts = { connectionTimeout: 10_000, greetingTimeout: 10_000, socketTimeout: 20_000 };
  const transport = createTransport({ url: settings.smtpUrl, ...timeouts });
  let closed = false;

  async function send(letter: Claimed): Promise<void> {
    try {
      await transport.sendMail({
        from: settings.from,
        to: letter.recipient,
        subject: letter.subject,
        text: letter.body,
        // The same at every attempt, so that a letter taken over after a crash is known as the same.
        messageId: `<${letter.id}@countercheck>`,
      });
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      log.warn({ mail: letter.id, attempts: letter.attempts, reason }, 'mail was not delivered');
      return markFailed(database, letter, reason);
    }
    await markSent(database, letter);
  }

  return {
    async run() {
      while (!closed) {
        const letters = await claimMail(database, batch);
        for (const letter of letters) await send(letter);
        if (letters.length < batch) return;
      }
    },
    close() {
      closed = true;
      transport.close();
    },
  };
}
