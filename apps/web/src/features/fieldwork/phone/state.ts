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
}

export const phoneless: PhoneState = {
  ready: false,
  problem: null,
  entries: [],
  preparedAt: null,
  signInNeeded: false,
  online: true,
  sheetsVersion: 0,
};
