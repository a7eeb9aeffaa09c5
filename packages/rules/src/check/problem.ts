/** One thing wrong with a rule set as data. */
export interface RuleProblem {
  /** path into the rule set, e.g. ['items', 3, 'options', 0, 'require', 0, 'quantity'] */
  path: (string | number)[];
  message: string;
}

/** The same, with the place in the text someone has to edit. */
export interface LocatedProblem {
  file: string;
  /** 1-based; 1 when the place cannot be found in the text */
  line: number;
  /** dotted path within the file, e.g. `options.0.require.0.quantity`; empty for the whole file */
  field: string;
  message: string;
}

/** Thrown by `loadRuleSet` with every problem found, not only the first. */
export class RuleSetError extends Error {
  readonly problems: readonly LocatedProblem[];

  constructor(problems: readonly LocatedProblem[]) {
    super(
      problems
        .map((each) => `${each.file}:${each.line}: ${each.field ? `${each.field}: ` : ''}${each.message}`)
        .join('\n'),
    );
    this.name = 'RuleSetError';
    this.problems = problems;
  }
}
