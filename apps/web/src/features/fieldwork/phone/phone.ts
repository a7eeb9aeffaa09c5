import type { Me, VisitSheet } from '@countercheck/contracts';
import { today } from '../../../lib/dates.ts';
import { storeProblem } from '../../../lib/phone/problem.ts';
import { onSignedIn } from '../../../lib/session-expiry.ts';
import { phoneStore } from '../../../lib/phone/store.ts';
import type { Entry, NewEntry } from '../outbox/entry.ts';
import { createSender, type Answer, type Sender } from '../outbox/sender.ts';
import type { Content } from './content.ts';
import { Drafts } from './drafts.ts';
import { laterSheet } from './later-sheet.ts';
import { phoneOutbox, type PhoneOutbox } from './outbox-store.ts';
import { Sheets } from './sheets.ts';
import { Thumbnails } from './thumbnails.ts';
import { send } from './transport.ts';

export interface PhoneState {
  /** what is on the phone has been read */
  ready: boolean;
  /** why nothing can be kept on this phone, when it cannot */
  problem: unknown;
  entries: readonly Entry<Content>[];
  preparedAt: string | null;
  signInNeeded: boolean;
  online: boolean;
  /** goes up with every change of the sheets kept */
  sheetsVersion: number;
}

const channelName = 'countercheck-phone';
const senderLock = 'countercheck-sender';
const fetchEveryMs = 5 * 60_000;

export const phoneless: PhoneState = {
  ready: false,
  problem: null,
  entries: [],
  preparedAt: null,
  signInNeeded: false,
  online: true,
  sheetsVersion: 0,
};

/** The rater's phone in this tab: what is kept on it, what waits to be sent, and the one sender among the tabs. */
class Phone {
  state: PhoneState = { ...phoneless, online: navigator.onLine };
  private readonly listeners = new Set<() => void>();
  private readonly afterSent = new Set<(visitId: string) => void>();
  private readonly channel = new BroadcastChannel(channelName);
  private outbox: PhoneOutbox | null = null;
  private ownDrafts: Drafts | null = null;
  private sheets: Sheets | null = null;
  private thumbnails: Thumbnails | null = null;
  private sender: Sender | null = null;
  private reading: Promise<void> | null = null;
  private again = false;
  private readonly sentVisits = new Set<string>();

  constructor(readonly me: Pick<Me, 'id' | 'name' | 'company'>) {
    this.channel.onmessage = (event: MessageEvent<'entries' | 'sheets' | 'poke'>) => {
      if (event.data === 'poke') this.sender?.poke();
      else if (event.data === 'sheets') void this.reloadSheets();
      else void this.reload();
    };
    addEventListener('online', () => this.networkChanged());
    addEventListener('offline', () => this.networkChanged());
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible') this.lookAround();
    });
    onSignedIn(() => this.lookAround());
    this.opened = this.start();
  }

  subscribe = (listener: () => void) => {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  };
  private set(changes: Partial<PhoneState>): void {
    this.state = { ...this.state, ...changes };
    for (const listener of this.listeners) listener();
  }
  /** Tells of each visit of which something was sent, so that its sheet can be read again. */
  onSent(listener: (visitId: string) => void): () => void {
    this.afterSent.add(listener);
    return () => void this.afterSent.delete(listener);
  }

  /** resolves when what is on the phone has been read, or cannot be */
  readonly opened: Promise<void>;

  private async start(): Promise<void> {
    try {
      const store = await phoneStore();
      this.outbox = phoneOutbox(store);
      this.sheets = new Sheets(store, this.me.id);
      this.ownDrafts = new Drafts(store);
      this.thumbnails = new Thumbnails(store);
      const [entries] = await Promise.all([
        this.outbox.read(),
        this.sheets.load(lookedAt()),
        this.ownDrafts.load(),
      ]);
      this.set({ ready: true, entries, preparedAt: this.sheets.preparedAt, sheetsVersion: 1 });
      void this.sheets.whole.then(() => this.set({ sheetsVersion: this.state.sheetsVersion + 1 }));
      void navigator.locks.request(senderLock, () => this.sendForEver());
      void this.fetchSheets();
      setInterval(() => {
        this.lookAround();
        this.sweep();
      }, fetchEveryMs);
      this.sweep();
    } catch (problem) {
      this.set({ ready: true, problem });
    }
  }

  /** Holds the lock while the page lives; a fault of the store is no reason to give up. */
  private async sendForEver(): Promise<never> {
    for (;;) {
      this.sender = this.newSender(this.outbox!);
      await this.sender.run().catch((error: unknown) => console.warn('the outbox stopped', error));
      await new Promise((resolve) => setTimeout(resolve, 2_000));
    }
  }

  private newSender(outbox: PhoneOutbox): Sender {
    return createSender<Content>({
      store: outbox,
      send: (entry) => this.sendOne(entry, outbox),
      userId: this.me.id,
      reachable: () => navigator.onLine,
      onNews: () => this.tellEntries(),
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

  private async sendOne(entry: Entry<Content>, outbox: PhoneOutbox): Promise<Answer> {
    const answer = await send(entry, outbox.photo);
    this.set({ signInNeeded: answer.kind === 'sign-in' });
    if (answer.kind === 'done') {
      // The sheet on the phone takes it over before the outbox lets it go.
      await this.fold(entry);
      this.sentVisits.add(entry.content.visitId);
    }
    return answer;
  }

  private async fold(entry: Entry<Content>): Promise<void> {
    const sheet = this.sheets?.sheet(entry.content.visitId);
    if (!sheet) return;
    const { withEntries } = await laterSheet.load();
    await this.keepSheet(withEntries(sheet, [entry], this.me, this.me.company.timezone));
  }

  private tellEntries(): void {
    this.channel.postMessage('entries');
    void this.reload();
  }
  /** Reads the list again; asked while it is being read, once more after that and not once each time. */
  private reload(): Promise<void> {
    this.again = true;
    this.reading ??= (async () => {
      while (this.again && this.outbox) {
        this.again = false;
        this.set({ entries: await this.outbox.read() });
      }
      this.reading = null;
      this.tellDrained();
    })();
    return this.reading;
  }

  /** Of a visit whose last entry was sent, the sheet can be read from the service again. */
  private tellDrained(): void {
    for (const visitId of this.sentVisits) {
      if (this.state.entries.some(({ content }) => content.visitId === visitId)) continue;
      this.sentVisits.delete(visitId);
      this.channel.postMessage('sheets');
      for (const listener of this.afterSent) listener(visitId);
    }
  }
  private async reloadSheets(): Promise<void> {
    await this.sheets?.load();
    this.set({
      sheetsVersion: this.state.sheetsVersion + 1,
      preparedAt: this.sheets?.preparedAt ?? null,
    });
  }

  private networkChanged(): void {
    this.set({ online: navigator.onLine });
    if (navigator.onLine) this.lookAround();
  }
  /** There may be a network again: sends what waits and asks for what is new. */
  lookAround(): void {
    this.set({ signInNeeded: false });
    this.sender?.poke();
    this.channel.postMessage('poke');
    void this.fetchSheets();
  }

  async fetchSheets(): Promise<void> {
    const waits = (visitId: string) => this.state.entries.some(({ content }) => content.visitId === visitId);
    try {
      if (!navigator.onLine || !(await this.sheets?.fetch(waits))) return;
      this.channel.postMessage('sheets');
      this.set({
        sheetsVersion: this.state.sheetsVersion + 1,
        preparedAt: this.sheets?.preparedAt ?? null,
      });
    } catch {
      // Without a network, or a session, what is on the phone stays in use.
    }
  }

  sheet = (visitId: string): VisitSheet | null => this.sheets?.sheet(visitId) ?? null;
  allSheets = (): VisitSheet[] => this.sheets?.all() ?? [];
  async keepSheet(sheet: VisitSheet): Promise<void> {
    const { name, timezone } = this.me.company;
    const company = { name, timezone, blindSecondReading: sheet.blind };
    await this.sheets?.keep(sheet, company).catch(() => undefined);
    this.set({ sheetsVersion: this.state.sheetsVersion + 1 });
  }

  /** half-filled forms; in the browser's plain store where there is no sealed one */
  get drafts(): Drafts | Storage {
    return this.ownDrafts ?? localStorage;
  }

  /** resolves when every keystroke so far is in the store */
  draftsWritten = async (): Promise<unknown> => this.ownDrafts?.written();

  private need(): PhoneOutbox {
    if (!this.outbox) throw this.state.problem ?? new TypeError('the phone is not open yet');
    return this.outbox;
  }

  /** Keeps a deed; once this resolves, no crash and no missing network loses it. */
  async add(content: Content, lane: string, id: string = crypto.randomUUID(), bytes?: ArrayBuffer) {
    await this.opened;
    const outbox = this.need();
    const made = { id, key: crypto.randomUUID(), userId: this.me.id, lane, madeAt: new Date().toISOString() };
    const entry: NewEntry<Content> = { ...made, content };
    try {
      await (bytes ? outbox.addPhoto(entry, bytes) : outbox.add(entry));
    } catch (error) {
      throw storeProblem(error);
    }
    await this.changed();
    void navigator.storage?.persist?.();
  }

  private async changed(): Promise<void> {
    this.channel.postMessage('entries');
    await this.reload();
    this.sender?.poke();
    this.channel.postMessage('poke');
  }

  async withdraw(id: string): Promise<boolean> {
    const gone = await this.need().withdraw(id);
    if (gone) await this.thumbnails?.drop(id);
    await this.changed();
    return gone;
  }
  async decide(id: string, content: Content): Promise<void> {
    await this.need().decide(id, content, crypto.randomUUID());
    await this.changed();
  }
  photo = (id: string): Promise<ArrayBuffer | null> => this.need().photo(id);

  /** A photo to look at without a network: the small one, until the day ends. */
  small = async (id: string): Promise<ArrayBuffer | null> => (await this.thumbnails?.read(id)) ?? null;
  async keepSmall(id: string, bytes: ArrayBuffer): Promise<void> {
    // Where there is no room for it, the service has one.
    await this.thumbnails?.keep(today(this.me.company.timezone), id, bytes).catch(() => undefined);
  }
  private sweep(): void {
    void this.thumbnails?.sweep(today(this.me.company.timezone)).catch(() => undefined);
  }
}
export type { Phone };

/** The visit whose sheet is on the screen, which comes before the others. */
const lookedAt = (): string | undefined => /^\/visits\/([\w-]+)/.exec(window.location.pathname)?.[1];

let current: Phone | null = null;

/** The phone of whoever is signed in; begun with its first use in a tab. */
export function phoneOf(me: Pick<Me, 'id' | 'name' | 'company'>): Phone {
  if (current?.me.id !== me.id) current = new Phone(me);
  return current;
}
