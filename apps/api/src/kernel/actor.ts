import type { Role } from '@countercheck/contracts';

/** Whoever a request speaks for. The database sees the same in its row-level security. */
export type Actor =
  | { kind: 'nobody' }
  | { kind: 'user'; id: string; name: string; role: Role; builderId: string | null }
  | { kind: 'installer'; id: string; name: string; houseId: string; linkId: string }
  /** whoever of a builder holds a link to the readiness list of one request */
  | { kind: 'contact'; linkId: string; name: string; houseId: string; requestId: string }
  /** a programme that reads a rater's calendar */
  | { kind: 'calendar'; id: string; name: string; feedId: string }
  /** a contact of a builder, by the link in its mail */
  | { kind: 'recipient'; contactId: string; name: string; linkId: string }
  /** the service itself: sign-in, link look-up, delivery, start-up */
  | { kind: 'system'; name: string };

export type UserActor = Extract<Actor, { kind: 'user' }>;
export type InstallerActor = Extract<Actor, { kind: 'installer' }>;

export type ContactActor = Extract<Actor, { kind: 'contact' }>;
export type CalendarActor = Extract<Actor, { kind: 'calendar' }>;
export type RecipientActor = Extract<Actor, { kind: 'recipient' }>;

export const system: Actor = { kind: 'system', name: 'Countercheck' };

export function databaseScope(actor: Actor): {
  scope: string;
  builderId: string;
  houseId: string;
  userId: string;
} {
  switch (actor.kind) {
    case 'system':
      return { scope: 'system', builderId: '', houseId: '', userId: '' };
    case 'installer':
      return { scope: 'installer', builderId: '', houseId: actor.houseId, userId: actor.id };
    case 'contact':
      return { scope: 'contact', builderId: '', houseId: actor.houseId, userId: actor.linkId };
    case 'calendar':
      return { scope: 'calendar', builderId: '', houseId: '', userId: actor.id };
    case 'recipient':
      return { scope: 'recipient', builderId: '', houseId: '', userId: actor.contactId };
    case 'user':
      return actor.role === 'builder'
        ? { scope: 'builder', builderId: actor.builderId ?? '', houseId: '', userId: actor.id }
        : { scope: 'staff', builderId: '', houseId: '', userId: actor.id };
    case 'nobody':
      return { scope: '', builderId: '', houseId: '', userId: '' };
  }
}
