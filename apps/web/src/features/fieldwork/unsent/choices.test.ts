import { expect, it } from 'vitest';
import type { VisitSheet } from '@countercheck/contracts';
import type { Entry } from '../outbox/entry.ts';
import type { Content } from '../phone/content.ts';
import { choicesFor, sameChange, withReason } from './choices.ts';

const times = { startsAt: '2026-11-25T15:00:00.000Z', endsAt: '2026-11-25T17:00:00.000Z' };
const now = (more: object = {}) =>
  ({ visit: { id: 'visit', ...times }, figuresRevision: 1, readings: [], ...more }) as unknown as VisitSheet;
const reading = (seen: object = {}): Content =>
  ({
    kind: 'reading',
    visitId: 'visit',
    place: 'Supply static pressure, System 1',
    body: {
      ...{ id: 'mine', test: 'supply-static', subjectId: 'system' },
      seen: { ...times, figuresRevision: 1, ...seen },
    },
  }) as unknown as Content;
const refused = (content: Content, code: string) =>
  ({
    content,
    refusal: { code, title: '', detail: null, remedy: '', fields: [] },
  }) as unknown as Entry<Content>;
const labels = (entry: Entry<Content>, sheet: VisitSheet | null) =>
  choicesFor(entry, sheet).map(({ label }) => label);

it('asks whether it is sent for the visit as it was moved', () => {
  const moved = now({ visit: { id: 'visit', ...times, startsAt: '2026-11-25T14:00:00.000Z' } });
  const [send, back] = choicesFor(refused(reading(), 'changed-meanwhile'), moved);
  expect(send).toMatchObject({
    label: 'Send it all the same',
    content: { body: { seen: { startsAt: '2026-11-25T14:00:00.000Z', figuresRevision: 1 } } },
  });
  expect(back).toMatchObject({ label: 'Take it back', content: null });
});

it('lets the rater choose which of two signed revisions he read against', () => {
  const choices = choicesFor(refused(reading(), 'changed-meanwhile'), now({ figuresRevision: 2 }));
  expect(choices.map(({ label }) => label)).toEqual([
    'Keep revision 1, which I read against',
    'Send it against revision 2',
    'Take it back',
  ]);
  expect(choices[0]).toMatchObject({ content: { body: { figuresChosen: 1, seen: { figuresRevision: 2 } } } });
  expect(choices[1]!.content).not.toHaveProperty('body.figuresChosen');
  // None were signed when he read: there is nothing older to keep.
  const first = refused(reading({ figuresRevision: null }), 'changed-meanwhile');
  expect(labels(first, now())).toEqual(['Send it against revision 1', 'Take it back']);
});

it('puts mine in the place of what another device wrote only with a reason', () => {
  const theirs = {
    ...{ id: 'theirs', test: 'supply-static', subjectId: 'system', visitId: 'visit' },
    ...{ takenAt: '2026-11-25T15:30:00.000Z', supersedesId: null, supersededById: null },
  };
  const [mine, back] = choicesFor(refused(reading(), 'conflict'), now({ readings: [theirs] }));
  expect(mine).toMatchObject({ needsReason: true, content: { body: { supersedesId: 'theirs' } } });
  expect(withReason(mine!.content!, 'Hose had slipped off')).toMatchObject({
    body: { supersedeReason: 'Hose had slipped off' },
  });
  expect(back!.label).toBe('Theirs stands; take mine back');
  expect(labels(refused(reading(), 'conflict'), now())).toEqual([
    'Try again',
    'Theirs stands; take mine back',
  ]);
});

it('offers to submit with what waits, and to try again what it does not know', () => {
  const content = {
    kind: 'submission',
    visitId: 'visit',
    place: 'x',
    body: { acceptWaiting: false },
  } as Content;
  const [submit] = choicesFor(refused(content, 'visit-not-complete'), now());
  expect(submit!.content).toMatchObject({ body: { acceptWaiting: true } });
  expect(labels(refused(reading(), 'visit-not-yours'), null)).toEqual(['Try again', 'Take it back']);
  expect(choicesFor({ ...refused(reading(), 'x'), refusal: null }, now())).toEqual([]);
});

it('asks once about all that was entered before the same change', () => {
  const entry = (id: string, content: Content) => ({ ...refused(content, 'changed-meanwhile'), id });
  const head = entry('1', reading());
  const same = entry('2', reading());
  const later = entry('3', reading({ figuresRevision: 2 }));
  const photo = entry('4', { ...reading(), kind: 'photo' } as unknown as Content);
  const elsewhere = entry('5', { ...reading(), visitId: 'other' } as Content);
  const all = [head, same, later, photo, elsewhere];
  expect(sameChange(head, all).map(({ id }) => id)).toEqual(['2']);
  expect(sameChange({ ...head, refusal: { ...head.refusal!, code: 'conflict' } }, all)).toEqual([]);
});

it('sets the time of a reading right where the phone’s clock is off, and says so with it', () => {
  const ahead = 181 * 60_000;
  const fields = [{ path: 'takenAt', message: 'This time lies in the future.' }];
  const content = reading();
  if (content.kind === 'reading') content.body.takenAt = '2026-11-25T19:01:00.000Z';
  const early = refused(content, 'invalid-input');
  const entry = { ...early, refusal: { ...early.refusal!, fields } };
  const [right, again, back] = choicesFor(entry, now(), { clockAhead: ahead });
  expect(right).toMatchObject({
    label: 'Send it with the time set right, 3 h 1 min earlier',
    content: { body: { takenAt: '2026-11-25T16:00:00.000Z', conditions: { clockAheadMinutes: 181 } } },
  });
  expect([again!.label, back!.label]).toEqual(['Try again', 'Take it back']);
  // Not known, or hardly off: nothing to set right.
  expect(choicesFor(entry, now()).map(({ label }) => label)).toEqual(['Try again', 'Take it back']);
  expect(choicesFor(entry, now(), { clockAhead: 20_000 })).toHaveLength(2);
  const other = { ...entry, id: 'other', refusal: null };
  expect(sameChange({ ...entry, id: 'one' }, [other])).toEqual([other]);
});

it('sends what was read for a visit that was called off to another one in that house, and never to none', () => {
  const later = now({ visit: { id: 'later', ...times }, figuresRevision: 2 });
  const elsewhere = [{ sheet: later, when: 'Nov 26, 9:00 AM' }];
  const photo = {
    kind: 'photo',
    visitId: 'visit',
    place: 'Kitchen',
    photo: { id: 'p' },
  } as unknown as Content;
  for (const code of ['visit-closed', 'visit-not-yours']) {
    const [send, ...others] = choicesFor(refused(reading(), code), null, { elsewhere });
    expect(send).toMatchObject({
      label: 'Send it for the visit of Nov 26, 9:00 AM',
      content: { visitId: 'later', body: { id: 'mine', seen: { figuresRevision: 2 } } },
    });
    expect(others.map(({ label }) => label)).toEqual(['Try again', 'Take it back']);
    expect(choicesFor(refused(photo, code), null, { elsewhere })[0]!.content).toMatchObject({
      visitId: 'later',
    });
    expect(labels(refused(reading(), code), now())).toEqual(['Try again', 'Take it back']);
  }
  // The end of a visit is of that visit.
  const end = { kind: 'submission', visitId: 'visit', place: 'x', body: {} } as unknown as Content;
  expect(choicesFor(refused(end, 'visit-closed'), null, { elsewhere })).toHaveLength(2);
  const entry = { ...refused(reading(), 'visit-closed'), id: 'one' };
  const waits = { ...refused(photo, ''), id: 'two', refusal: null };
  expect(sameChange(entry, [entry, waits, { ...waits, id: 'three', content: end }])).toEqual([waits]);
});
