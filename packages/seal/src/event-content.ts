import canonicalize from 'canonicalize';

/** What an event says; the number that the database gives it is not part of it. */
export interface EventFields {
  at: Date;
  actorKind: string;
  actorId: string | null;
  actorName: string;
  action: string;
  recordType: string;
  recordId: string;
  houseId: string | null;
  /** as JSON knows it; nothing and JSON's null are the same */
  before: unknown;
  after: unknown;
  reason: string | null;
  requestId: string | null;
}

/**
 * The canonical JSON (RFC 8785) of a value. Throws at what JSON cannot hold: a number that is none, half of a
 * surrogate pair, a circle.
 */
export function canonicalText(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new TypeError('There is no JSON for this value.');
  return text;
}

/**
 * The canonical JSON (RFC 8785) of an event, its time in UTC with milliseconds: what the chain is made over. Throws as
 * `canonicalText`, and a RangeError for a time that is none.
 */
export function eventContent(event: EventFields): string {
  const { actorKind, actorId, actorName, action, recordType, recordId, houseId, reason, requestId } = event;
  return canonicalText({
    at: event.at.toISOString(),
    ...{ actorKind, actorId, actorName, action, recordType, recordId, houseId, reason, requestId },
    before: event.before ?? null,
    after: event.after ?? null,
  });
}
