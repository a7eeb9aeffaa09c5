import type { Entry } from '../outbox/entry.ts';
import type { Content } from './content.ts';

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
  /** how many half-filled forms found no room on the phone */
  unkept: number;
  /** whether the browser has promised to keep the store; null where it cannot tell */
  lasting: boolean | null;
  /** by how many ms this phone's clock is ahead of the service's; null when that is not known */
  clockAhead: number | null;
}

export const phoneless: PhoneState = {
  ready: false,
  problem: null,
  entries: [],
  preparedAt: null,
  signInNeeded: false,
  online: true,
  sheetsVersion: 0,
  unkept: 0,
  lasting: null,
  clockAhead: null,
};
