/** What the service said when it would not take an entry: a person decides what becomes of it. */
export interface Refusal {
  code: string;
  title: string;
  detail: string | null;
  remedy: string;
  fields: { path: string; message: string }[];
}

/** One deed of the rater, kept on the phone until the service has said that it has it. */
export interface Entry<Content = unknown> {
  /** made on the phone; for readings and photos their own */
  id: string;
  /** the Idempotency-Key: the same at every attempt, another one with each decision of a person */
  key: string;
  userId: string;
  /** entries of one lane, a house, arrive in the order they were made */
  lane: string;
  /** given by the store; the order of making */
  seq: number;
  madeAt: string;
  content: Content;
  /** counted up before each attempt; from then on the service may have it */
  attempts: number;
  refusal: Refusal | null;
}

/** An entry as lists need it, without what it says. */
export type Pending = Omit<Entry, 'content'>;
export type NewEntry<Content = unknown> = Omit<Entry<Content>, 'seq' | 'attempts' | 'refusal'>;

/** Where entries are kept. Each of these is done whole or not at all, and stays after a crash once it is done. */
export interface OutboxStore<Content = unknown> {
  add(entry: NewEntry<Content>): Promise<void>;
  /** in the order of making */
  all(): Promise<Pending[]>;
  /** the one of a lane that is to be sent next */
  first(userId: string, lane: string): Promise<Pending | null>;
  /** counts an attempt and gives the entry as it is then; null when it is gone or waits for a person */
  claim(id: string): Promise<Entry<Content> | null>;
  /** the service has it */
  done(id: string): Promise<void>;
  refuse(id: string, refusal: Refusal): Promise<void>;
  /** a person decided: the content to send now, under a new key; not of one that is being sent */
  decide(id: string, content: Content, key: string): Promise<boolean>;
  /** takes an entry back that was never sent, or that the service refused; false when it may be there already */
  withdraw(id: string): Promise<boolean>;
}

/** Whether an entry can be taken back without a trace. */
export const canWithdraw = ({ attempts, refusal }: Pick<Entry, 'attempts' | 'refusal'>): boolean =>
  attempts === 0 || refusal !== null;
