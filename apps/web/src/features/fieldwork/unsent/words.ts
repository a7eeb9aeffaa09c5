import type { Entry } from '../outbox/entry.ts';
import type { Content } from '../phone/content.ts';
import type { PhoneState } from '../phone/state.ts';

const kinds: Record<Content['kind'], string> = {
  reading: 'Reading',
  photo: 'Photo',
  submission: 'Visit submitted',
  'not-ready': 'House not ready',
};

export const entryTitle = ({ content }: Pick<Entry<Content>, 'content'>): string =>
  `${kinds[content.kind]}: ${content.place}`;

/** How it stands with what was entered, in a few words that are always in sight. */
export function statusWords({ entries, online, signInNeeded, problem }: PhoneState): string {
  if (problem) return 'Works only with a network: this browser keeps nothing';
  const refused = entries.filter(({ refusal }) => refusal).length;
  const count = entries.length;
  if (count === 0) return online ? 'Everything is sent' : 'No network; everything is sent';
  if (refused > 0) return `${count} not sent; ${refused === 1 ? '1 needs' : `${refused} need`} your decision`;
  if (signInNeeded) return `${count} not sent: sign in again`;
  return online ? `${count} not sent; sending` : `${count} not sent; no network`;
}
