import type { VisitSheet } from '@countercheck/contracts';
import type { Entry, Refusal } from '../outbox/entry.ts';
import type { Content } from '../phone/content.ts';
import { standing } from '../sheet/readings.ts';
import { spanWords } from './words.ts';

export interface Choice {
  label: string;
  /** what is sent instead; null takes the entry back, a reading into its form */
  content: Content | null;
  /** it is taken back for good: somebody else's stands */
  givesWay?: boolean;
  /** it says why, in the file */
  needsReason: boolean;
}

const seenOf = ({ visit, figuresRevision }: VisitSheet) => ({
  startsAt: visit.startsAt,
  endsAt: visit.endsAt,
  figuresRevision,
});

function withSeen(content: Content, now: VisitSheet, figuresChosen?: number): Content {
  const seen = seenOf(now);
  switch (content.kind) {
    case 'reading':
      return {
        ...content,
        body: { ...content.body, seen, ...(figuresChosen === undefined ? {} : { figuresChosen }) },
      };
    case 'submission':
      return { ...content, body: { ...content.body, seen } };
    case 'not-ready':
      return { ...content, body: { ...content.body, seen } };
    case 'photo':
      return content;
  }
}

function whenChanged(content: Content, now: VisitSheet): Choice[] {
  const mine = content.kind === 'reading' ? content.body.seen?.figuresRevision : undefined;
  const newer = now.figuresRevision !== null && mine !== undefined && mine !== now.figuresRevision;
  const send = { needsReason: false };
  if (!newer) return [{ ...send, label: 'Send it all the same', content: withSeen(content, now) }];
  const older =
    typeof mine === 'number'
      ? [
          {
            ...send,
            label: `Keep revision ${mine}, which I read against`,
            content: withSeen(content, now, mine),
          },
        ]
      : [];
  return [
    ...older,
    { ...send, label: `Send it against revision ${now.figuresRevision}`, content: withSeen(content, now) },
  ];
}

/** Another device has written the same reading: mine takes its place with a reason, or theirs stands. */
function whenReadTwice(content: Extract<Content, { kind: 'reading' }>, now: VisitSheet): Choice[] {
  const { test, subjectId } = content.body;
  const theirs = standing(now.readings, test, subjectId).findLast(
    ({ visitId, id }) => visitId === now.visit.id && id !== content.body.id,
  );
  if (!theirs) return [];
  const body = { ...content.body, seen: seenOf(now), supersedesId: theirs.id };
  return [{ label: 'Mine replaces it, with this reason', content: { ...content, body }, needsReason: true }];
}

/** Whether the service would not believe the time of a reading. */
const wrongTime = (refusal: Refusal | null): boolean =>
  refusal?.fields.some(({ path }) => path === 'takenAt') ?? false;

/** The reading with its time set right by as much as the phone's clock is off, and that said with it. */
function whenClockIsOff(content: Content, clockAhead: number | null): Choice[] {
  if (content.kind !== 'reading' || clockAhead === null || Math.abs(clockAhead) < 60_000) return [];
  const { body } = content;
  const conditions = { ...body.conditions, clockAheadMinutes: Math.round(clockAhead / 60_000) };
  const takenAt = new Date(Date.parse(body.takenAt) - clockAhead).toISOString();
  const which = clockAhead > 0 ? 'earlier' : 'later';
  return [
    {
      label: `Send it with the time set right, ${spanWords(clockAhead)} ${which}`,
      content: { ...content, body: { ...body, conditions, takenAt } },
      needsReason: false,
    },
  ];
}

/** The visit takes nothing any more: called off, handed in, or somebody else's. */
const isClosed = (refusal: Refusal | null): boolean =>
  refusal?.code === 'visit-closed' || refusal?.code === 'visit-not-yours';

/** What was read in the house is of another visit there, where the rater has one. */
function whenClosed(content: Content, elsewhere: NonNullable<Known['elsewhere']>): Choice[] {
  if (content.kind !== 'reading' && content.kind !== 'photo') return [];
  return elsewhere.map(({ sheet, when }) => ({
    label: `Send it for the visit of ${when}`,
    content: withSeen({ ...content, visitId: sheet.visit.id }, sheet),
    needsReason: false,
  }));
}

/** What is known on the phone of what a decision may turn on. */
export interface Known {
  /** by how many ms its clock is ahead of the service's */
  clockAhead?: number | null;
  /** the rater's other open visits to the house, and when they are */
  elsewhere?: readonly { sheet: VisitSheet; when: string }[];
}

/**
 * What a person can do with an entry that the service refused, given the house as it is there now (null when it
 * cannot be asked or is no longer this rater's). Nothing is ever sent over something else without being chosen here.
 */
export function choicesFor(
  { content, refusal }: Entry<Content>,
  now: VisitSheet | null,
  { clockAhead = null, elsewhere = [] }: Known = {},
): Choice[] {
  const back: Choice = { label: 'Take it back', content: null, needsReason: false };
  const again: Choice = { label: 'Try again', content, needsReason: false };
  if (!refusal) return [];
  if (isClosed(refusal)) return [...whenClosed(content, elsewhere), again, back];
  if (!now) return [again, back];
  if (refusal.code === 'changed-meanwhile') return [...whenChanged(content, now), back];
  if (content.kind === 'reading' && (refusal.code === 'conflict' || refusal.code === 'reading-superseded')) {
    const instead = whenReadTwice(content, now);
    return [
      ...(instead.length > 0 ? instead : [again]),
      { ...back, label: 'Theirs stands; take mine back', givesWay: true },
    ];
  }
  if (content.kind === 'submission' && refusal.code === 'visit-not-complete') {
    const body = { ...content.body, acceptWaiting: true };
    return [
      { label: 'Submit it all the same', content: { ...content, body }, needsReason: false },
      { ...back, label: 'Go on with the visit' },
    ];
  }
  if (wrongTime(refusal)) return [...whenClockIsOff(content, clockAhead), again, back];
  return [again, back];
}

/**
 * Other entries of the house that the same answer does for: entered before the same change, by the same clock, or for
 * the same visit that takes nothing any more.
 */
export function sameChange(
  { id, content, refusal }: Entry<Content>,
  entries: readonly Entry<Content>[],
): Entry<Content>[] {
  if (isClosed(refusal))
    return entries.filter(
      (other) =>
        other.id !== id &&
        (other.content.kind === 'reading' || other.content.kind === 'photo') &&
        other.content.visitId === content.visitId,
    );
  if (wrongTime(refusal))
    return entries.filter(
      (other) =>
        other.id !== id && other.content.kind === 'reading' && other.content.visitId === content.visitId,
    );
  if (refusal?.code !== 'changed-meanwhile' || content.kind === 'photo') return [];
  const seen = JSON.stringify(content.body.seen);
  return entries.filter(
    (other) =>
      other.id !== id &&
      other.content.kind !== 'photo' &&
      other.content.visitId === content.visitId &&
      JSON.stringify(other.content.body.seen) === seen,
  );
}

/** The content with the reason that a person gave. */
export function withReason(content: Content, reason: string): Content {
  return content.kind === 'reading'
    ? { ...content, body: { ...content.body, supersedeReason: reason } }
    : content;
}
