import type { Entry } from '../outbox/entry.ts';
import { createSender, type Answer, type Sender } from '../outbox/sender.ts';
import type { Content } from './content.ts';
import type { PhoneOutbox } from './outbox-store.ts';
import { send } from './transport.ts';

const senderLock = 'countercheck-sender';

interface Told {
  /** the service has answered; waited for before the outbox lets go of what was sent */
  onAnswer: (entry: Entry<Content>, answer: Answer) => Promise<void>;
  /** the outbox holds something else now */
  onNews: () => void;
}

/** The one sender among the tabs of this browser: whichever holds the lock sends, as long as its page lives. */
export class Sending {
  private sender: Sender | null = null;

  constructor(
    private readonly outbox: PhoneOutbox,
    private readonly userId: string,
    private readonly told: Told,
  ) {
    void navigator.locks.request(senderLock, () => this.forEver());
  }

  /** There is something to send, or a network again. */
  poke(): void {
    this.sender?.poke();
  }

  /** A fault of the store is no reason to give up. */
  private async forEver(): Promise<never> {
    for (;;) {
      this.sender = this.newSender();
      await this.sender.run().catch((error: unknown) => console.warn('the outbox stopped', error));
      await new Promise((resolve) => setTimeout(resolve, 2_000));
    }
  }

  private newSender(): Sender {
    return createSender<Content>({
      store: this.outbox,
      send: async (entry) => {
        const answer = await send(entry, this.outbox.photo);
        await this.told.onAnswer(entry, answer);
        return answer;
      },
      userId: this.userId,
      reachable: () => navigator.onLine,
      onNews: this.told.onNews,
      clock: {
        now: () => Date.now(),
        random: () => crypto.getRandomValues(new Uint32Array(1))[0]! / 2 ** 32,
        pause: (ms, wake) =>
          new Promise((resolve) => {
            wake(resolve);
            if (ms !== null) setTimeout(resolve, ms);
          }),
      },
    });
  }
}
