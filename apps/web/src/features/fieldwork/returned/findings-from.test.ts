import { describe, expect, it } from 'vitest';
import type { EventRecord } from '@countercheck/contracts';
import { findingsFrom } from './findings-from.ts';

const event = (action: string, more: Partial<EventRecord> = {}): EventRecord => ({
  id: action,
  at: '2026-03-10T08:00:00Z',
  actorKind: 'user',
  actorName: 'Q',
  action,
  recordType: 'review',
  recordId: 'r',
  houseId: null,
  before: null,
  after: null,
  reason: null,
  requestId: null,
  ...more,
});
const findings = [{ id: 'f1', item: null, subjectId: null, severity: 'major', text: 'Ring missing' }];

describe('findingsFrom', () => {
  it('takes the newest return and the newest answers after it', () => {
    const found = findingsFrom([
      event('finding answered', { recordId: 'f1', after: { answer: 'Ring B' } }),
      event('finding answered', { recordId: 'f1', after: { answer: 'Ring A' } }),
      event('file returned', { after: { findings }, reason: 'see ring' }),
      event('file returned', { after: { findings: [] } }),
    ]);
    expect(found).toMatchObject({ note: 'see ring', findings: [{ id: 'f1', answer: 'Ring B' }] });
  });
  it('reads findings that cannot be answered one by one', () => {
    const [{ id: _, ...bare }] = findings as [(typeof findings)[number]];
    const found = findingsFrom([event('file returned', { after: { findings: [bare] } })]);
    expect(found?.findings).toMatchObject([{ text: 'Ring missing', answer: null }]);
  });
  it('knows nothing of a file that was never returned', () => {
    expect(findingsFrom([event('visit booked')])).toBeNull();
  });
});
