/** Something that this phone cannot do, in words. */
export class PhoneProblem extends Error {
  constructor(
    readonly title: string,
    readonly remedy: string,
  ) {
    super(title);
    this.name = 'PhoneProblem';
  }
}

/** Whether a write failed because the phone has no room left. */
export const isFull = (error: unknown): boolean =>
  error instanceof DOMException && error.name === 'QuotaExceededError';

/** What a failed write to the phone's store means to the person who typed. */
export function storeProblem(error: unknown): unknown {
  const name = error instanceof DOMException ? error.name : '';
  if (isFull(error))
    return new PhoneProblem(
      'There is no room left on this phone',
      'What you typed is still in the form. Delete something on the phone or let what waits be sent, then record it again.',
    );
  if (name === 'InvalidStateError' || name === 'UnknownError')
    return new PhoneProblem(
      'The store on this phone does not answer',
      'What you typed is still in the form. Close the other tabs of this page and record it again.',
    );
  return error;
}
