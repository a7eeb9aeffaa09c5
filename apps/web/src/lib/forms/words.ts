import type * as z from 'zod';

type Issue = z.core.$ZodRawIssue;

/** Words for what a schema found, where the schema has no words of its own. */
export function wordsFor(issue: Issue): string | undefined {
  if (issue.input === undefined || issue.input === null || issue.input === '') return 'Please fill this in';
  switch (issue.code) {
    case 'invalid_type':
      return issue.expected === 'number' || issue.expected === 'int'
        ? 'Enter a number'
        : 'This cannot be used';
    case 'invalid_value':
      return 'Choose one of the list';
    case 'invalid_format':
      return issue.format === 'date' || issue.format === 'datetime'
        ? 'Enter a date'
        : issue.format === 'uuid'
          ? 'Choose one'
          : 'This cannot be used as it is written';
    case 'too_small':
      return issue.origin === 'array'
        ? 'Add at least one'
        : issue.inclusive
          ? `At least ${issue.minimum}`
          : `Above ${issue.minimum}`;
    case 'too_big':
      return issue.origin === 'array' ? `At most ${issue.maximum} of these` : `At most ${issue.maximum}`;
    default:
      return undefined;
  }
}
