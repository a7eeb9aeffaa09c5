import { describe, expect, it } from 'vitest';
import { testDefinition } from '@countercheck/measurement';
import { emptyDraft } from './draft.ts';
import { dropDraft, loadDraft, saveDraft, type TextStore } from './draft-store.ts';

const place = { visitId: 'v', test: 'supply-static', subjectId: 's', supersedes: null };

function memory(): TextStore {
  const kept = new Map<string, string>();
  return {
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => void kept.set(key, value),
    removeItem: (key) => void kept.delete(key),
  };
}

describe('the waiting drafts', () => {
  it('come back after a reload and are gone once dropped', () => {
    const store = memory();
    const draft = { ...emptyDraft(testDefinition('supply-static'), () => 'x'), note: 'probe bent' };
    saveDraft(place, draft, store);
    expect(loadDraft(place, store)).toEqual(draft);
    expect(loadDraft({ ...place, supersedes: 'r1' }, store)).toBeNull();
    dropDraft(place, store);
    expect(loadDraft(place, store)).toBeNull();
  });

  it('do not come back from an older page’s shape', () => {
    const store = memory();
    store.setItem('sheet-draft:v:supply-static:s:new', '{"typed":3}');
    expect(loadDraft(place, store)).toBeNull();
  });

  it('let the form go on where the browser refuses to store', () => {
    const refusing: TextStore = {
      getItem: () => {
        throw new Error('refused');
      },
      setItem: () => {
        throw new Error('refused');
      },
      removeItem: () => {
        throw new Error('refused');
      },
    };
    expect(
      saveDraft(
        place,
        emptyDraft(testDefinition('supply-static'), () => 'x'),
        refusing,
      ),
    ).toBe(false);
    // The list of work, the pad and the form show the same as long as the page lives.
    expect(loadDraft(place, refusing)).not.toBeNull();
    expect(() => dropDraft(place, refusing)).not.toThrow();
    expect(loadDraft(place, refusing)).toBeNull();
  });
});
