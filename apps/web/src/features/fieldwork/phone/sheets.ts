import { fieldwork, type FieldPackage, type VisitSheet } from '@countercheck/contracts';
import { call } from '../../../lib/client.ts';
import { clockOf } from '../../../lib/dates.ts';
import type { PhoneStore } from '../../../lib/phone/store.ts';

type Kept = FieldPackage['sheets'][number];
type Shared = Pick<FieldPackage, 'preparedAt' | 'company' | 'ruleSets' | 'instruments'> & { version: string };

const sharedName = (userId: string) => `shared:${userId}`;
const sheetName = (userId: string, visitId: string) => `sheet:${userId}:${visitId}`;

/** The sheets of a rater's next days as the service gave them, kept sealed and held open while the page lives. */
export class Sheets {
  private shared: Shared | null = null;
  private readonly sheets = new Map<string, Kept>();

  constructor(
    private readonly store: PhoneStore,
    private readonly userId: string,
  ) {}

  get preparedAt(): string | null {
    return this.shared?.preparedAt || null;
  }

  /** resolves when the other sheets are open too */
  whole: Promise<void> = Promise.resolve();

  /**
   * Opens what is kept. With the visit that is looked at, its sheet alone is waited for: opening a week's sheets takes
   * a slow phone longer than a person waits.
   */
  async load(first?: string): Promise<void> {
    const prefix = sheetName(this.userId, '');
    const [shared, names] = await Promise.all([
      this.store.get<Shared>(sharedName(this.userId)),
      this.store.db.getAllKeys('kept'),
    ]);
    this.shared = shared;
    const kept = names.filter((each) => each.startsWith(prefix));
    const wanted = first === undefined ? kept : kept.filter((each) => each === prefix + first);
    const opened = await this.open(wanted.length > 0 ? wanted : kept);
    this.sheets.clear();
    this.take(opened);
    const others = wanted.length > 0 ? kept.filter((each) => !wanted.includes(each)) : [];
    this.whole = (async () => {
      if (others.length === 0) return;
      // After the page has been drawn with what was waited for.
      await new Promise((resolve) => setTimeout(resolve, 300));
      this.take(await this.open(others));
    })();
  }

  private async open(names: readonly string[]): Promise<Kept[]> {
    const found = await Promise.all(names.map((name) => this.store.get<Kept>(name)));
    return found.filter((sheet) => sheet !== null);
  }

  /** What was taken over meanwhile is newer than what was read. */
  private take(sheets: readonly Kept[]): void {
    for (const sheet of sheets) if (!this.sheets.has(sheet.visit.id)) this.sheets.set(sheet.visit.id, sheet);
  }

  /** Asks for what has changed; true when something has. Sheets that `holds` names stay whatever happens. */
  async fetch(holds: (visitId: string) => boolean): Promise<boolean> {
    await this.whole;
    const known = this.shared?.version;
    const query = known ? { known } : {};
    const { version, content } = await call(fieldwork.fieldPackage, { query });
    if (!content) return false;
    const { preparedAt, company, ruleSets, instruments } = content;
    const used = new Set([...this.sheets.values()].map(({ ruleSetId }) => ruleSetId));
    const others = (this.shared?.ruleSets ?? []).filter(
      ({ id }) => used.has(id) && !ruleSets.some((each) => each.id === id),
    );
    this.shared = { preparedAt, company, ruleSets: [...ruleSets, ...others], instruments, version };
    for (const sheet of content.sheets) await this.put(sheet);
    const current = new Set(content.sheets.map(({ visit }) => visit.id));
    for (const [id, { visit }] of [...this.sheets]) {
      // A visit of a later week was opened by hand and stays; one of these days that is not among them is gone.
      const later = clockOf(visit.startsAt, company.timezone).date > content.to;
      if (!current.has(id) && !later && !holds(id)) await this.drop(id);
    }
    // Last, so that a fetch that was cut short is made again.
    await this.store.put(sharedName(this.userId), this.shared);
    return true;
  }

  /** The whole sheet of a visit, or null when it is not on this phone. */
  sheet(visitId: string): VisitSheet | null {
    const kept = this.sheets.get(visitId);
    const ruleSet = this.shared?.ruleSets.find(({ id }) => id === kept?.ruleSetId);
    if (!kept || !ruleSet || !this.shared) return null;
    const { ruleSetId: _, ...sheet } = kept;
    return { ...sheet, ruleSet, instruments: this.shared.instruments };
  }

  all(): VisitSheet[] {
    return [...this.sheets.keys()].flatMap((id) => this.sheet(id) ?? []);
  }

  /** Takes over a sheet that came on its own, or that was changed here. */
  async keep({ ruleSet, instruments, ...sheet }: VisitSheet, company: Shared['company']): Promise<void> {
    if (sheet.visit.rater.id !== this.userId) return;
    const shared = this.shared ?? { preparedAt: '', company, ruleSets: [], instruments: [], version: '' };
    const others = shared.ruleSets.filter(({ id }) => id !== ruleSet.id);
    // A version of the package no longer stands for what is here.
    const version = others.length < shared.ruleSets.length ? shared.version : '';
    this.shared = { ...shared, ruleSets: [...others, ruleSet], instruments, version };
    await this.store.put(sharedName(this.userId), this.shared);
    await this.put({ ...sheet, ruleSetId: ruleSet.id });
  }

  private async put(sheet: Kept): Promise<void> {
    this.sheets.set(sheet.visit.id, sheet);
    await this.store.put(sheetName(this.userId, sheet.visit.id), sheet);
  }

  private async drop(visitId: string): Promise<void> {
    this.sheets.delete(visitId);
    await this.store.db.delete('kept', sheetName(this.userId, visitId));
  }
}
