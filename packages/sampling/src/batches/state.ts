import { testsInSet, type BatchRules } from './rules.ts';

/** What happened to a batch, in order; the record of it only grows. */
export type BatchEvent =
  | { kind: 'tested'; houseId: string; passed: boolean }
  /** a failed house was corrected and tested again */
  | { kind: 'retested'; houseId: string; passed: boolean }
  /** houses in the random order in which they would be tested */
  | { kind: 'set-opened'; houseIds: readonly string[] };

export type HouseResult = 'passed' | 'failed' | 'corrected';

export interface SetHouse {
  houseId: string;
  /** null = not tested: waiting for its test, or spoken for by the others */
  result: HouseResult | null;
  /** it has to be tested itself */
  chosen: boolean;
}

export interface BatchSet {
  number: number;
  state: 'testing' | 'widened' | 'passed' | 'failed';
  houses: SetHouse[];
  /** in words, the newest last */
  history: string[];
}

export interface BatchState {
  phase: 'qualifying' | 'sampling' | 'returning';
  /** passes in a row that count toward entry or return, and houses tested since then */
  inRow: number;
  tested: number;
  /** houses tested on their own account, with what came of it */
  singles: { houseId: string; result: HouseResult }[];
  sets: BatchSet[];
}

export const emptyBatch: BatchState = { phase: 'qualifying', inRow: 0, tested: 0, singles: [], sets: [] };

/** Why something cannot be done to a batch; the message is for people. */
export class BatchRefusal extends Error {
  override name = 'BatchRefusal';
}

const open = ({ state }: BatchSet) => state === 'testing' || state === 'widened';

/** How many passes in a row, and how many tested houses, the phase asks for. Never throws. */
export function neededIn(rules: BatchRules, phase: BatchState['phase']): { inRow: number; tested: number } {
  if (phase === 'returning') return { inRow: rules.passesToReturn.value, tested: 0 };
  return { inRow: rules.passesToEnter.value, tested: rules.testedToEnter.value };
}

/** Why no set can be opened now, or null when one can. Never throws. */
export function whyNoSet(rules: BatchRules, state: BatchState): string | null {
  const at = state.sets.find(open);
  if (at) return `Set ${at.number} is not finished: test the houses that wait there first.`;
  const waiting = state.sets.find(({ houses }) => houses.some(({ chosen, result }) => chosen && !result));
  if (waiting) return `Set ${waiting.number} has failed: every house of it is tested first.`;
  const uncorrected = failedHouses(state).length;
  if (uncorrected > 0)
    return `${uncorrected} failed ${uncorrected === 1 ? 'house waits' : 'houses wait'} to be corrected and tested again.`;
  if (state.phase === 'sampling') return null;
  const needed = neededIn(rules, state.phase);
  return `${state.inRow} of ${needed.inRow} houses in a row have passed${
    needed.tested > 0 ? `, ${state.tested} of ${needed.tested} were tested` : ''
  }.`;
}

/** Houses that failed and were not yet tested again with success. Never throws. */
export function failedHouses(state: BatchState): string[] {
  const all = [...state.singles, ...state.sets.flatMap(({ houses }) => houses)];
  return all.filter(({ result }) => result === 'failed').map(({ houseId }) => houseId);
}

function inBatch(state: BatchState, houseId: string): boolean {
  const has = (list: readonly { houseId: string }[]) => list.some((each) => each.houseId === houseId);
  return has(state.singles) || state.sets.some(({ houses }) => has(houses));
}

function single(rules: BatchRules, state: BatchState, houseId: string, passed: boolean): BatchState {
  if (state.phase === 'sampling')
    throw new BatchRefusal(
      'Sampling is under way: put the house into a set, which says whether it is tested.',
    );
  const needed = neededIn(rules, state.phase);
  const inRow = passed ? state.inRow + 1 : 0;
  const tested = state.tested + 1;
  const singles = [...state.singles, { houseId, result: passed ? ('passed' as const) : ('failed' as const) }];
  if (inRow >= needed.inRow && tested >= needed.tested)
    return { ...state, phase: 'sampling', inRow: 0, tested: 0, singles };
  return { ...state, inRow, tested, singles };
}

function choose(houses: SetHouse[], more: number): number {
  const next = houses.filter(({ chosen }) => !chosen).slice(0, more);
  for (const house of next) house.chosen = true;
  return next.length;
}

/** What a set says after one of its chosen houses was tested. */
function settle(rules: BatchRules, set: BatchSet, failed: boolean): void {
  const { houses, history } = set;
  if (failed && set.state === 'testing' && rules.widening.value > 0) {
    const more = choose(houses, rules.widening.value);
    set.state = 'widened';
    history.push(`Widened: ${more} more of the set to test.`);
  } else if (failed && open(set)) {
    const more = choose(houses, houses.length);
    set.state = 'failed';
    history.push(`The set has failed: nothing in it is spoken for by another house; ${more} more to test.`);
  }
  const waits = houses.some(({ chosen, result }) => chosen && (!result || result === 'failed'));
  if (open(set) && !waits) {
    set.state = 'passed';
    const spoken = houses.filter(({ chosen }) => !chosen).length;
    history.push(`The set has passed; it speaks for ${spoken} houses that were not tested.`);
  }
}

function inSet(rules: BatchRules, state: BatchState, houseId: string, passed: boolean): BatchState {
  const sets = structuredClone(state.sets);
  const set = sets.find(({ houses }) => houses.some((each) => each.houseId === houseId))!;
  const house = set.houses.find((each) => each.houseId === houseId)!;
  if (!house.chosen)
    throw new BatchRefusal('This house was not chosen: the chosen houses of its set are tested first.');
  house.result = passed ? 'passed' : 'failed';
  set.history.push(`House ${set.houses.indexOf(house) + 1} of the set ${passed ? 'passed' : 'failed'}.`);
  const before = set.state;
  settle(rules, set, !passed);
  const failed = set.state === 'failed' && before !== 'failed';
  return failed ? { ...state, sets, phase: 'returning', inRow: 0, tested: 0 } : { ...state, sets };
}

function tested(rules: BatchRules, state: BatchState, houseId: string, passed: boolean): BatchState {
  const known = state.sets.flatMap(({ houses }) => houses).find((each) => each.houseId === houseId);
  if (known?.result || state.singles.some((each) => each.houseId === houseId))
    throw new BatchRefusal('This house was tested before: only a house that failed is tested again.');
  return known ? inSet(rules, state, houseId, passed) : single(rules, state, houseId, passed);
}

function retested(rules: BatchRules, state: BatchState, houseId: string, passed: boolean): BatchState {
  if (!failedHouses(state).includes(houseId)) throw new BatchRefusal('This house has not failed.');
  if (!passed) return state;
  const next = structuredClone(state);
  for (const each of [...next.singles, ...next.sets.flatMap(({ houses }) => houses)])
    if (each.houseId === houseId) each.result = 'corrected';
  for (const set of next.sets) {
    const at = set.houses.findIndex((each) => each.houseId === houseId);
    if (at < 0) continue;
    set.history.push(`House ${at + 1} of the set was corrected and passed when tested again.`);
    settle(rules, set, false);
  }
  return next;
}

function setOpened(rules: BatchRules, state: BatchState, houseIds: readonly string[]): BatchState {
  const why = whyNoSet(rules, state);
  if (why) throw new BatchRefusal(why);
  if (houseIds.length < 1 || houseIds.length > rules.setSize.value)
    throw new BatchRefusal(`A set has one to ${rules.setSize.value} houses; ${houseIds.length} were named.`);
  if (new Set(houseIds).size !== houseIds.length || houseIds.some((each) => inBatch(state, each)))
    throw new BatchRefusal('A house can be in a batch once only.');
  const houses = houseIds.map((houseId) => ({ houseId, result: null, chosen: false }));
  const count = choose(houses, testsInSet(rules, houses.length));
  const set: BatchSet = {
    ...{ number: state.sets.length + 1, state: 'testing', houses },
    history: [`Opened with ${houses.length} houses, ${count} of them to test.`],
  };
  return { ...state, sets: [...state.sets, set] };
}

/**
 * A batch after one more event. Throws BatchRefusal, with words for people, where the rules do not allow it; the state
 * given is never changed. The rules with their sources are data, `batchRuleSets`.
 */
export function batchAfter(rules: BatchRules, state: BatchState, event: BatchEvent): BatchState {
  switch (event.kind) {
    case 'tested':
      return tested(rules, state, event.houseId, event.passed);
    case 'retested':
      return retested(rules, state, event.houseId, event.passed);
    case 'set-opened':
      return setOpened(rules, state, event.houseIds);
  }
}

/** A batch by its whole record. Throws BatchRefusal for a record that the rules would not have allowed. */
export const batchState = (rules: BatchRules, events: readonly BatchEvent[]): BatchState =>
  events.reduce((state, event) => batchAfter(rules, state, event), emptyBatch);
