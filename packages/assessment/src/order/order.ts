import { testKeys, type TestKey } from '@countercheck/measurement';
import { connected, rigWords, setUps, stretches, type Rig, type Stretch } from './set-ups.ts';

/** A test on a part of the house that is to be put in its place. */
export interface Work {
  test: TestKey;
  subjectId: string;
  subjectLabel: string;
  /** an item that it serves is a safety item */
  safety: boolean;
}

export interface OrderedWork<W extends Work = Work> {
  work: W;
  stretch: Stretch;
  /** what has to be set up for it now, and what is in place from the tests before it */
  newly: Rig[];
  still: Rig[];
  /** why it comes now, in words */
  reason: string;
}

/** Within a stretch and place: the order in which one subject's tests follow from each other. */
const withinSubject: readonly TestKey[] = ['spillage', 'flue-carbon-monoxide', ...testKeys];

const sentence = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;

function reasonFor(stretch: Stretch, first: boolean, safety: boolean, newly: Rig[], still: Rig[]): string {
  const set = newly.map((rig) => rigWords[rig].setUp).join('; ');
  const leads =
    stretch === 'combustion' && first
      ? 'combustion first: nothing else begins before the air is known to be safe'
      : safety && stretch !== 'combustion'
        ? 'safety comes first'
        : '';
  const kept = still.filter((rig) => rig !== 'monitor').map((rig) => rigWords[rig].still);
  const said = [leads, kept.join(', '), set].filter(Boolean).map(sentence);
  return said.join(' ') || 'Nothing is to be set up for it.';
}

/**
 * The tests in an order in which safety comes first and nothing is set up twice: combustion before everything, then
 * any stretch of work with a safety item, then tightness, then moving air; within a stretch one set-up leads to the
 * next, and what is connected to a part of the house stays until that part is done. Each comes with its reason.
 * The order is the same whatever order the tests are given in. Common practice, no published source.
 */
export function orderOfWork<W extends Work>(tests: readonly W[]): OrderedWork<W>[] {
  const urgent = new Set(tests.filter(({ safety }) => safety).map(({ test }) => setUps[test].stretch));
  const rank = (stretch: Stretch) =>
    (stretch === 'combustion' || urgent.has(stretch) ? 0 : stretches.length) + stretches.indexOf(stretch);
  const labelled = (a: Work, b: Work) =>
    a.subjectLabel.localeCompare(b.subjectLabel, 'en', { numeric: true }) ||
    (a.subjectId < b.subjectId ? -1 : 1);
  const sorted = tests.toSorted((a, b) => {
    const [x, y] = [setUps[a.test], setUps[b.test]];
    return (
      rank(x.stretch) - rank(y.stretch) ||
      x.place - y.place ||
      (a.subjectId === b.subjectId ? 0 : labelled(a, b)) ||
      withinSubject.indexOf(a.test) - withinSubject.indexOf(b.test)
    );
  });
  let inPlace = new Map<Rig, string>();
  let before: Stretch | null = null;
  return sorted.map((work) => {
    const { stretch, rigs } = setUps[work.test];
    // The monitor stays on the body all day; everything else is put away between stretches.
    if (stretch !== before) inPlace = new Map([...inPlace].filter(([rig]) => rig === 'monitor'));
    const first = stretch !== before;
    before = stretch;
    const at = (rig: Rig) => (connected.includes(rig) ? work.subjectId : '');
    const still = rigs.filter((rig) => inPlace.get(rig) === at(rig));
    const newly = rigs.filter((rig) => inPlace.get(rig) !== at(rig));
    for (const rig of newly) inPlace.set(rig, at(rig));
    return { work, stretch, newly, still, reason: reasonFor(stretch, first, work.safety, newly, still) };
  });
}
