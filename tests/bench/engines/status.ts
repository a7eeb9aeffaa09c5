/** What every engine answers of an item whose facts are complete. */
export type Answer = 'pass' | 'fail' | 'exempt' | 'not-applicable';

/** The verdict from its three conditions. */
export function answer(applies: boolean, exempt: boolean, pass: boolean): Answer {
  if (!applies) return 'not-applicable';
  if (exempt) return 'exempt';
  return pass ? 'pass' : 'fail';
}

/** One engine with the thirty items loaded: one house in, an answer for each item out, in the set's order. */
export interface Contender<Input> {
  name: string;
  answers(input: Input): readonly Answer[] | Promise<readonly Answer[]>;
}
