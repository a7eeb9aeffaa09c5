import * as z from 'zod';

/**
 * Every error the API can give: its stable code, its HTTP status, a title, and what to do about it.
 * docs/errors.md describes each; a test fails when one is missing there.
 */
export const errorRegistry = {
  'invalid-input': {
    status: 400,
    title: 'Some of what was entered cannot be used',
    remedy: 'Correct the fields named and send again.',
  },
  'sign-in-required': {
    status: 401,
    title: 'Sign in first',
    remedy: 'Sign in; what you entered stays on the page.',
  },
  'wrong-credentials': {
    status: 401,
    title: 'Email or password is wrong',
    remedy: 'Try again, or ask for a new password.',
  },
  'second-factor-required': {
    status: 401,
    title: 'The code from your authenticator is needed',
    remedy: 'Enter the six-digit code.',
  },
  'wrong-second-factor': {
    status: 401,
    title: 'The code is wrong or was used already',
    remedy: 'Wait for the next code and enter that.',
  },
  'not-allowed': {
    status: 403,
    title: 'Your role may not do this',
    remedy: 'Ask the administrator if you should.',
  },
  'second-factor-setup-required': {
    status: 403,
    title: 'Your company requires a second factor for this role',
    remedy: 'Set up an authenticator under your account.',
  },
  'not-found': {
    status: 404,
    title: 'There is no such record, or it is not yours to see',
    remedy: 'Check the address.',
  },
  'link-expired': {
    status: 410,
    title: 'This link has expired',
    remedy: 'Ask the rating company for a new link.',
  },
  'link-revoked': {
    status: 410,
    title: 'This link was withdrawn',
    remedy: 'Ask the rating company for a new link.',
  },
  'link-used': {
    status: 410,
    title: 'This link was used already',
    remedy: 'Sign in, or ask for a new link.',
  },
  'link-unknown': {
    status: 404,
    title: 'This link is not known',
    remedy: 'Check that the whole address was copied.',
  },
  conflict: {
    status: 409,
    title: 'Somebody changed this meanwhile',
    remedy: 'Load it again and repeat your change.',
  },
  'already-exists': {
    status: 409,
    title: 'There is already one of these',
    remedy: 'Use the existing record or choose another name.',
  },
  'rater-double-booked': {
    status: 409,
    title: 'The rater is booked at that time',
    remedy: 'Choose another time or another rater.',
  },
  'rater-held': {
    status: 409,
    title: 'The rater is held and cannot be booked',
    remedy: 'Choose another rater, or ask the quality manager whether the hold can be lifted.',
  },
  'second-rater-needed': {
    status: 409,
    title: 'A re-test is measured by another rater',
    remedy: 'Choose a rater who has not measured in this house.',
  },
  'visit-not-yours': {
    status: 403,
    title: 'This visit is booked for another rater',
    remedy: 'Ask the office to book the visit for you.',
  },
  'visit-closed': {
    status: 409,
    title: 'This visit is closed',
    remedy: 'Ask the office to book another visit.',
  },
  'visit-not-complete': {
    status: 409,
    title: 'Some items still wait',
    remedy: 'Enter what is missing, or mark the visit as not ready.',
  },
  'figures-frozen': {
    status: 409,
    title: 'The rater has read against these figures',
    remedy: 'Ask the rating company; the signed figures stay as they are.',
  },
  'file-sealed': {
    status: 409,
    title: 'The file was released and is sealed',
    remedy: 'Open a new revision of the file first.',
  },
  'not-releasable': {
    status: 409,
    title: 'The house cannot be released',
    remedy: 'Close what still waits or fails; the list says which.',
  },
  'review-not-complete': {
    status: 409,
    title: 'Something in the file was not looked at yet',
    remedy: 'Mark every reading and every line of the checklist, then finish.',
  },
  'reading-superseded': {
    status: 409,
    title: 'A newer reading has replaced this one',
    remedy: 'Load the sheet and correct the newest reading.',
  },
  'reason-required': {
    status: 400,
    title: 'A reason is needed',
    remedy: 'Say in a few words why the reading is corrected.',
  },
  'same-key-other-body': {
    status: 422,
    title: 'This was sent before with other content',
    remedy: 'Reload; the first one is kept.',
  },
  'request-in-flight': {
    status: 409,
    title: 'This very request is being worked on',
    remedy: 'Wait a moment and send it again with the same key.',
  },
  'changed-meanwhile': {
    status: 409,
    title: 'Something changed while you had no connection',
    remedy: 'Look at both and decide; what you entered is kept on your phone.',
  },
  'upload-offset': {
    status: 409,
    title: 'The photo goes on from another place',
    remedy: 'Ask how much of it has arrived and go on from there.',
  },
  'upload-differs': {
    status: 422,
    title: 'The photo that arrived is not the one that was announced',
    remedy: 'Send it again from its beginning.',
  },
  'draw-step': {
    status: 409,
    title: 'The draw is not at this step',
    remedy: 'Load it again; each step is taken once and in its order.',
  },
  'draw-empty': {
    status: 409,
    title: 'No file answers to this filter',
    remedy: 'Widen the filter; an empty population cannot be frozen.',
  },
  'batch-rule': {
    status: 409,
    title: 'The batch’s rules do not allow this',
    remedy: 'Do first what the message names.',
  },
  'own-work': { status: 403, title: 'Nobody reviews their own work', remedy: 'Ask another quality manager.' },
  'file-too-large': { status: 413, title: 'The file is too large', remedy: 'Send a file of at most 15 MB.' },
  'file-type-refused': {
    status: 415,
    title: 'This is not a file that can be kept',
    remedy: 'Send a JPEG, PNG or WebP photo; evidence for a corrective action may be a PDF too.',
  },
  'too-many-requests': {
    status: 429,
    title: 'Too many attempts',
    remedy: 'Wait for the time given and try again.',
  },
  'weak-password': {
    status: 400,
    title: 'This password is too easy to guess',
    remedy: 'Use at least 12 characters that are not a common password.',
  },
  'import-has-errors': {
    status: 400,
    title: 'The file has rows that cannot be loaded',
    remedy: 'Correct the rows named; nothing was loaded.',
  },
  'database-unavailable': {
    status: 503,
    title: 'The database does not answer',
    remedy: 'Try again shortly; nothing was lost on the page.',
  },
  'internal-error': {
    status: 500,
    title: 'Something went wrong on our side',
    remedy: 'Try again; tell the administrator the request id if it stays.',
  },
} as const satisfies Record<string, { status: number; title: string; remedy: string }>;

export type ErrorCode = keyof typeof errorRegistry;
export const errorCodes = Object.keys(errorRegistry) as [ErrorCode, ...ErrorCode[]];

/** RFC 9457 problem details, with the stable code, the remedy and the fields concerned. */
export const problemSchema = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string().optional(),
    code: z.enum(errorCodes),
    remedy: z.string(),
    requestId: z.string().optional(),
    fields: z.array(z.object({ path: z.string(), message: z.string() })).optional(),
    retryAfterSeconds: z.number().optional(),
  })
  .meta({ id: 'Problem' });
export type ProblemDetails = z.infer<typeof problemSchema>;
