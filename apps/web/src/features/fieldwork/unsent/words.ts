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

/** A clock that is off by less than this is taken as it is; the service allows as much. */
const clockAllowanceMs = 10 * 60_000;

/** How long something is in hours and minutes, to the minute. */
export function spanWords(ms: number): string {
  const minutes = Math.round(Math.abs(ms) / 60_000);
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  return [hours > 0 ? `${hours} h` : '', rest > 0 || hours === 0 ? `${rest} min` : '']
    .filter(Boolean)
    .join(' ');
}

/** That the phone's clock is off, where it is; readings carry its time. */
export function clockWords({ clockAhead }: Pick<PhoneState, 'clockAhead'>): string | null {
  if (clockAhead === null || Math.abs(clockAhead) <= clockAllowanceMs) return null;
  return `This phone’s clock is ${spanWords(clockAhead)} ${clockAhead > 0 ? 'ahead' : 'behind'}: set it right, readings carry its time`;
}

/** How it stands with what was entered, in a few words that are always in sight. */
export function statusWords({ entries, online, signInNeeded, problem, unkept }: PhoneState): string {
  if (problem) return 'Works only with a network: this browser keeps nothing';
  if (unkept > 0) return 'No room left on this phone: keep this page open, make room or send what waits';
  const refused = entries.filter(({ refusal }) => refusal).length;
  const count = entries.length;
  if (count === 0) return online ? 'Everything is sent' : 'No network; everything is sent';
  if (refused > 0) return `${count} not sent; ${refused === 1 ? '1 needs' : `${refused} need`} your decision`;
  if (signInNeeded) return `${count} not sent: sign in again`;
  return online ? `${count} not sent; sending` : `${count} not sent; no network`;
}
