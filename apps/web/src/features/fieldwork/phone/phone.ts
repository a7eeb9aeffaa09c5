import type { Me, VisitSheet } from '@countercheck/contracts';
import { today } from '../../../lib/dates.ts';
import { whenIdle } from '../../../lib/later.ts';
import { dropMe } from '../../../lib/phone/kept-me.ts';
import { storeProblem } from '../../../lib/phone/problem.ts';
import { hasCode } from '../../../lib/problem.ts';
import { clockAhead } from '../../../lib/service-clock.ts';
import { announceExpiry, onExpiry, onSignedIn } from '../../../lib/session-expiry.ts';
import type { Entry, NewEntry } from '../outbox/entry.ts';
import type { Answer } from '../outbox/sender.ts';
import type { Content } from './content.ts';
import type { Drafts } from './drafts.ts';
import { openKept, type Kept } from './kept.ts';
import { askForLasting, isInstalled, isLasting } from './lasting.ts';
import { laterSheet } from './later-sheet.ts';
import { onceMore } from './once-more.ts';
import type { PhoneOutbox } from './outbox-store.ts';
import { Sending } from './sending.ts';
import { phoneless, type PhoneState } from './state.ts';

const channelName = 'countercheck-phone';
const fetchEveryMs = 5 * 60_000;

/** The rater's phone in this tab: what is kept on it, what waits to be sent, and what the other tabs say of it. */
class Phone {
  state: PhoneState = { ...phoneless, online: navigator.onLine };
  private readonly listeners = new Set<() => void>();
  private readonly afterSent = new Set<(visitId: string) => void>();
  private readonly channel = new BroadcastChannel(channelName);
  private kept: Kept | null = null;
  private sending: Sending | null = null;
  private readonly sentVisits = new Set<string>();

  constructor(readonly me: Pick<Me, 'id' | 'name' | 'company'>) {
    this.channel.onmessage = (event: MessageEvent<'entries' | 'sheets' | 'poke'>) => {
      if (event.data === 'poke') this.sending?.poke();
      else if (event.data === 'sheets') void this.reloadSheets();
      else void this.reload();
    };
    addEventListener('online', () => this.networkChanged());
    addEventListener('offline', () => this.networkChanged());
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible') this.lookAround();
    });
    onSignedIn(() => this.lookAround());
    // A session that was ended, perhaps for a lost phone, opens nothing without a network any more.
    onExpiry(() => void dropMe().catch(() => undefined));
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
      const { kept, entries } = await openKept(this.me.id, (unkept) => this.set({ unkept }));
      this.kept = kept;
      this.set({ ready: true, entries, preparedAt: kept.sheets.preparedAt, sheetsVersion: 1 });
      void kept.sheets.whole.then(() => this.sheetsChanged());
      void (isInstalled() ? this.askForLasting() : isLasting().then((lasting) => this.set({ lasting })));
      this.sending = new Sending(kept.outbox, this.me.id, {
        onAnswer: (entry, answer) => this.answered(entry, answer),
        onNews: () => this.tellEntries(),
      });
      void this.fetchSheets();
      setInterval(() => {
        this.lookAround();
        this.sweep();
      }, fetchEveryMs);
      whenIdle(() => this.sweep());
    } catch (problem) {
      this.set({ ready: true, problem });
    }
  }

  private async answered(entry: Entry<Content>, answer: Answer): Promise<void> {
    this.set({ signInNeeded: answer.kind === 'sign-in', clockAhead: clockAhead() });
    if (answer.kind !== 'done') return;
    // The sheet on the phone takes it over before the outbox lets it go.
    await this.fold(entry);
    this.sentVisits.add(entry.content.visitId);
  }

  private async fold(entry: Entry<Content>): Promise<void> {
    const sheet = this.sheet(entry.content.visitId);
    if (!sheet) return;
    const { withEntries } = await laterSheet.load();
    await this.keepSheet(withEntries(sheet, [entry], this.me, this.me.company.timezone));
  }

  private tellEntries(): void {
    this.channel.postMessage('entries');
    void this.reload();
  }
  private readonly readEntries = onceMore(async () => {
    if (this.kept) this.set({ entries: await this.kept.outbox.read() });
    // What was sent has made room.
    if (this.state.unkept > 0) this.kept?.drafts.tryAgain();
  });
  private async reload(): Promise<void> {
    await this.readEntries();
    this.tellDrained();
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

  private networkChanged(): void {
    this.set({ online: navigator.onLine });
    if (navigator.onLine) this.lookAround();
  }
  /** There may be a network again: sends what waits and asks for what is new. */
  lookAround(): void {
    this.set({ signInNeeded: false });
    this.pokeAll();
    void this.fetchSheets();
  }
  private pokeAll(): void {
    this.sending?.poke();
    this.channel.postMessage('poke');
  }

  private sheetsChanged(changes: Partial<PhoneState> = {}): void {
    this.set({ ...changes, sheetsVersion: this.state.sheetsVersion + 1 });
  }
  private async reloadSheets(): Promise<void> {
    await this.kept?.sheets.load();
    this.sheetsChanged({ preparedAt: this.kept?.sheets.preparedAt ?? null });
  }
  async fetchSheets(): Promise<void> {
    const waits = (visitId: string) => this.state.entries.some(({ content }) => content.visitId === visitId);
    try {
      if (!navigator.onLine || !(await this.kept?.sheets.fetch(waits))) return;
      this.channel.postMessage('sheets');
      this.sheetsChanged({ preparedAt: this.kept?.sheets.preparedAt ?? null });
    } catch (error) {
      // Without a network what is on the phone stays in use.
      if (hasCode(error, 'sign-in-required')) announceExpiry();
    } finally {
      this.set({ clockAhead: clockAhead() });
    }
  }

  sheet = (visitId: string): VisitSheet | null => this.kept?.sheets.sheet(visitId) ?? null;
  allSheets = (): VisitSheet[] => this.kept?.sheets.all() ?? [];
  async keepSheet(sheet: VisitSheet): Promise<void> {
    const { name, timezone } = this.me.company;
    const company = { name, timezone, blindSecondReading: sheet.blind };
    await this.kept?.sheets.keep(sheet, company).catch(() => undefined);
    this.sheetsChanged();
  }

  /** half-filled forms; in the browser's plain store where there is no sealed one */
  get drafts(): Drafts | Storage {
    return this.kept?.drafts ?? localStorage;
  }

  /** resolves when every keystroke so far is in the store */
  draftsWritten = async (): Promise<unknown> => this.kept?.drafts.written();

  private need(): PhoneOutbox {
    if (!this.kept) throw this.state.problem ?? new TypeError('the phone is not open yet');
    return this.kept.outbox;
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
    if (this.state.lasting !== true) void this.askForLasting();
  }

  private asked = false;
  /** Once a page: whoever said no is not asked with every reading. */
  private async askForLasting(): Promise<void> {
    if (this.asked) return;
    this.asked = true;
    this.set({ lasting: await askForLasting() });
  }

  private async changed(): Promise<void> {
    this.channel.postMessage('entries');
    await this.reload();
    this.pokeAll();
  }

  async withdraw(id: string): Promise<boolean> {
    const gone = await this.need().withdraw(id);
    if (gone) await this.kept?.thumbnails.drop(id);
    await this.changed();
    return gone;
  }
  async decide(id: string, content: Content): Promise<void> {
    await this.need().decide(id, content, crypto.randomUUID());
    await this.changed();
  }
  photo = (id: string): Promise<ArrayBuffer | null> => this.need().photo(id);

  /** A photo to look at without a network: the small one, until the day ends. */
  small = async (id: string): Promise<ArrayBuffer | null> => (await this.kept?.thumbnails.read(id)) ?? null;
  async keepSmall(id: string, bytes: ArrayBuffer): Promise<void> {
    // Where there is no room for it, the service has one.
    await this.kept?.thumbnails.keep(today(this.me.company.timezone), id, bytes).catch(() => undefined);
  }
  private sweep(): void {
    void this.kept?.thumbnails.sweep(today(this.me.company.timezone)).catch(() => undefined);
  }
}
export type { Phone };

let current: Phone | null = null;

/** The phone of whoever is signed in; begun with its first use in a tab. */
export function phoneOf(me: Pick<Me, 'id' | 'name' | 'company'>): Phone {
  if (current?.me.id !== me.id) current = new Phone(me);
  return current;
}
