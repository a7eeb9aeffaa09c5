import * as z from 'zod';
import { testKeys } from '@countercheck/measurement';
import { fuels, applianceKinds, ventings } from '@countercheck/assessment';
import {
  dateSchema,
  decisionRuleSchema,
  idParams,
  idSchema,
  instantSchema,
  okSchema,
  optionalText,
  text,
} from '../common.ts';
import { defineRoute } from '../route.ts';
import { houseAccesses, readinessKinds, notReadyKinds, visitSchema } from './visits.ts';
import { instrumentSchema, calibratedRangeSchema } from './instruments.ts';

const key = z.string().min(1).max(60);
const number = z.number().min(-1e9).max(1e9);
export const rawReadingSchema = z
  .object({
    values: z.record(key, number),
    choices: z.record(key, z.string().max(80)),
    confirmations: z.record(key, z.boolean()),
    rows: z
      .array(
        z.object({
          label: z.string().max(80),
          values: z.record(key, number),
          choices: z.record(key, z.string().max(80)),
        }),
      )
      .max(60),
  })
  .describe("numbers in the stored unit of each field's quantity");

/**
 * What was typed and in which unit, by path (`values.pressure`, `rows.0.values.flow`), so that the last digit is
 * kept. The unit is the code of the unit shown beside the field, `displayUnit(kind, system)`.
 */
export const enteredSchema = z.record(
  z.string().max(120),
  z.object({ text: z.string().max(40), unit: z.string().max(20) }),
);

/** What the rater had before his eyes when he entered something: what has changed since is for a person to decide. */
export const seenSchema = z.object({
  startsAt: instantSchema,
  endsAt: instantSchema,
  figuresRevision: z.int().nullable().describe("of the installer's figures; null = none were signed"),
});
export type Seen = z.infer<typeof seenSchema>;

export const readingBody = z.object({
  id: idSchema.describe('made by the device; sending the same again stores once'),
  test: z.enum(testKeys),
  subjectId: z.string().min(1).max(80),
  raw: rawReadingSchema,
  entered: enteredSchema,
  conditions: z
    .object({
      outdoorTemperature: number.nullish(),
      indoorTemperature: number.nullish(),
      wind: z.string().max(40).nullish(),
      note: z.string().max(500).nullish(),
      averagedSeconds: z
        .record(z.string().max(120), z.int().min(1).max(3600))
        .nullish()
        .describe(
          'over how long a moving display was averaged, by path as in `entered`; "" = the whole reading',
        ),
      clockAheadMinutes: z
        .int()
        .min(-525_600)
        .max(525_600)
        .nullish()
        .describe('by how much the device was ahead when a person set the time of the reading right'),
    })
    .default({}),
  instrumentId: idSchema.nullish().transform((v) => v ?? null),
  takenAt: instantSchema,
  supersedesId: idSchema.nullish().transform((v) => v ?? null),
  supersedeReason: optionalText(500),
  seen: seenSchema.optional(),
  figuresChosen: z
    .int()
    .optional()
    .describe('the revision to freeze, where a person chose the older one; else the newest'),
});
export type ReadingBody = z.input<typeof readingBody>;

export const readingSchema = z
  .object({
    id: idSchema,
    visitId: idSchema,
    test: z.enum(testKeys),
    subjectId: z.string(),
    raw: rawReadingSchema,
    entered: enteredSchema,
    conditions: z.record(z.string(), z.unknown()),
    instrument: z
      .object({
        id: idSchema,
        label: z.string(),
        serial: z.string(),
        calibratedOn: z.string().nullable(),
        dueOn: z.string().nullable(),
      })
      .nullable(),
    takenBy: z.object({ id: idSchema, name: z.string() }),
    takenAt: instantSchema,
    receivedAt: instantSchema,
    supersedesId: idSchema.nullable(),
    supersedeReason: z.string().nullable(),
    supersededById: idSchema.nullable(),
    figuresRevision: z.int().nullish().describe("the installer's figures in force when it was read"),
  })
  .meta({ id: 'Reading' });
export type Reading = z.infer<typeof readingSchema>;

/** A verdict travels as the rules package made it; its full type is ItemVerdict there. */
export const verdictSchema = z
  .looseObject({
    item: z.string(),
    title: z.string(),
    stage: z.enum(['rough', 'final']),
    subjectId: z.string(),
    subjectKind: z.string(),
    subjectLabel: z.string(),
    tests: z.array(z.enum(testKeys)),
    status: z.enum(['pass', 'fail', 'exempt', 'not-applicable', 'waiting']),
    reason: z.string(),
    closeToLimit: z
      .boolean()
      .optional()
      .describe('passes, but nearer to a limit than its expanded uncertainty'),
    closeWords: z.string().nullable().optional(),
    takes: z.unknown().describe('what a failed item takes to pass, the nearest way first'),
    safety: z.boolean(),
    stopWork: z.string().nullable(),
    dependsOn: z.array(z.string()),
    trade: z.string(),
    correction: z.string(),
    cautions: z.array(z.string()),
    trace: z.unknown(),
    headline: z.unknown(),
  })
  .meta({ id: 'ItemVerdict' });

const figuresByPart = z.record(z.string(), z.record(z.string(), z.number().nullable()));

/** The plain data that the assessment package works on, the same here, on the server and in a replay. */
export const houseFileSchema = z
  .object({
    house: z.object({
      conditionedFloorAreaFt2: z.number(),
      conditionedVolumeFt3: z.number(),
      bedrooms: z.int(),
      storeys: z.number(),
      climateZone: z.string(),
      foundation: z.string(),
      ventilationKind: z.enum(['none', 'exhaust', 'supply', 'balanced']),
      ventilatorDucted: z.boolean(),
      designedVentilationCfm: z.number().nullable(),
    }),
    systems: z.array(
      z.object({
        id: z.string(),
        label: z.string(),
        hasDucts: z.boolean(),
        ductsInside: z.boolean(),
        designAirflowCfm: z.number().nullable(),
        airHandlerAtRough: z.boolean().nullish(),
      }),
    ),
    rooms: z.array(
      z.object({
        id: z.string(),
        label: z.string(),
        kind: z.enum(['bedroom', 'bath', 'kitchen']),
        supplyFlowCfm: z.number().nullable(),
        volumeFt3: z.number().nullable(),
      }),
    ),
    appliances: z.array(
      z.object({
        id: z.string(),
        label: z.string(),
        kind: z.enum(applianceKinds),
        fuel: z.enum(fuels),
        venting: z.enum(ventings),
      }),
    ),
    decisionRule: decisionRuleSchema.optional(),
    reported: figuresByPart,
    reportedRevision: z.int().optional(),
    earlierFigures: z.array(z.object({ revision: z.int(), figures: figuresByPart })).optional(),
    hidden: z.array(z.object({ test: z.enum(testKeys), subjectId: z.string() })),
    readings: z.array(
      z.object({
        id: z.string(),
        test: z.enum(testKeys),
        subjectId: z.string(),
        raw: rawReadingSchema,
        takenOn: z.string(),
        takenAt: instantSchema.optional(),
        visitId: z.string(),
        figuresRevision: z.int().optional(),
        instrument: z
          .object({
            id: z.string(),
            kind: z.string(),
            label: z.string(),
            accuracyPercent: z.number(),
            accuracyAbsolute: z.number(),
            resolution: z.number().nullable(),
            calibratedOn: z.string().nullable(),
            dueOn: z.string().nullable(),
            ranges: z.array(calibratedRangeSchema),
          })
          .nullable(),
      }),
    ),
  })
  .meta({ id: 'HouseFile' });

export const photoSchema = z
  .object({
    id: idSchema,
    fileId: idSchema,
    visitId: idSchema.nullable(),
    item: z.string().nullable(),
    subjectId: z.string().nullable(),
    failedItemId: idSchema.nullable(),
    caption: z.string().nullable(),
    takenAt: instantSchema.nullable(),
    addedByName: z.string(),
    addedAt: instantSchema,
    width: z.int().nullable(),
    height: z.int().nullable(),
    mediaType: z.string(),
    size: z.int(),
    sha256: z.string(),
  })
  .meta({ id: 'Photo' });
export type Photo = z.infer<typeof photoSchema>;

/** How to get in, and what the site said that is not ready. */
const siteSchema = z
  .object({
    access: z.enum(houseAccesses).nullable(),
    accessNote: z.string().nullable().describe('where the key is, or whom to call'),
    openFrom: z.string().nullable().describe('HH:MM, from when somebody can be there; null = all day'),
    openTo: z.string().nullable(),
    note: z.string().nullable().describe('by whoever asked for the visit'),
    notReady: z.array(
      z.object({ kind: z.enum(readinessKinds), note: z.string().nullable(), byName: z.string() }),
    ),
  })
  .meta({ id: 'VisitSite' });
export type VisitSite = z.infer<typeof siteSchema>;

/** Everything a rater needs on one house, in one answer. */
export const sheetSchema = z
  .object({
    visit: visitSchema,
    file: houseFileSchema,
    ruleSet: z.object({
      id: idSchema,
      key: z.string(),
      version: z.string(),
      title: z.string(),
      body: z.unknown(),
    }),
    verdicts: z.array(verdictSchema).describe("of this visit's scope"),
    releasable: z.boolean(),
    stopWork: z.array(z.string()),
    readings: z.array(readingSchema).describe('with the superseded ones'),
    photos: z.array(photoSchema),
    instruments: z.array(instrumentSchema),
    figuresRevision: z.int().nullable().describe("the installer's figures in force; null = none signed"),
    blind: z.boolean(),
    site: siteSchema
      .nullish()
      .describe('null = nobody asked for the visit; not on a phone from before it was kept'),
  })
  .meta({ id: 'VisitSheet' });
export type VisitSheet = z.infer<typeof sheetSchema>;

/** Everything for the rater's next days on the phone, each rule set and instrument once. */
export const fieldPackageSchema = z
  .object({
    preparedAt: instantSchema,
    from: dateSchema,
    to: dateSchema,
    company: z.object({ name: z.string(), timezone: z.string(), blindSecondReading: z.boolean() }),
    ruleSets: z.array(sheetSchema.shape.ruleSet),
    instruments: z.array(instrumentSchema),
    sheets: z.array(sheetSchema.omit({ ruleSet: true, instruments: true }).extend({ ruleSetId: idSchema })),
  })
  .meta({ id: 'FieldPackage' });
export type FieldPackage = z.infer<typeof fieldPackageSchema>;

/** The short answer for a phone that keeps its own sheet. */
export const receiptSchema = z
  .object({ kept: idSchema, visitState: visitSchema.shape.state })
  .meta({ id: 'Receipt' });

/** A photo sent in pieces: how much of it has arrived. */
export const photoUploadSchema = z
  .object({
    id: idSchema.describe('of the photo that it becomes'),
    size: z.int(),
    received: z.int().describe('bytes; the next piece begins here'),
    kept: z.boolean().describe('all of it has come, its hash is right, and it is in the file'),
  })
  .meta({ id: 'PhotoUpload' });
export type PhotoUpload = z.infer<typeof photoUploadSchema>;

const photoFields = {
  id: idSchema,
  item: z.string().max(80).optional(),
  subjectId: z.string().max(80).optional(),
  caption: z.string().trim().max(300).optional(),
  takenAt: instantSchema.optional(),
};
export const largestPhoto = 15 * 1024 * 1024;
export const largestPiece = 1024 * 1024;

export const submissionBody = z.object({
  note: optionalText(),
  acceptWaiting: z.boolean().default(false).describe('submit although some items still wait'),
  seen: seenSchema.optional(),
});
export type SubmissionBody = z.input<typeof submissionBody>;
export const notReadyBody = z.object({
  cause: text(500),
  kind: z.enum(notReadyKinds).default('other'),
  seen: seenSchema.optional(),
});
export type NotReadyBody = z.input<typeof notReadyBody>;

const tag = 'Fieldwork';
const visitErrors = ['not-found', 'visit-not-yours', 'visit-closed', 'file-sealed'] as const;

export const fieldwork = {
  sheet: defineRoute({
    method: 'GET',
    path: '/visits/:id/sheet',
    tag,
    summary: "The rater's sheet: items, figures, readings, verdicts",
    access: ['rater', 'quality', 'office', 'administrator'],
    params: idParams,
    response: sheetSchema,
    errors: ['not-found', 'visit-not-yours'],
  }),
  fieldPackage: defineRoute({
    method: 'GET',
    path: '/field-package',
    tag,
    summary: "All that a phone needs for the rater's visits without a connection, with its version",
    access: ['rater'],
    query: z.object({
      days: z.coerce.number().int().min(1).max(7).default(3).describe('from today on'),
      known: z.string().max(80).optional().describe('the version that is on the phone'),
    }),
    response: z.object({
      version: z.string().describe('changes with any of the content'),
      content: fieldPackageSchema.nullable().describe('null: the known version is still right'),
    }),
  }),
  read: defineRoute({
    method: 'POST',
    path: '/visits/:id/readings',
    tag,
    summary: 'Record a reading; the visit begins with the first one',
    access: ['rater'],
    status: 201,
    params: idParams,
    keyed: true,
    query: z.object({ answer: z.enum(['sheet', 'receipt']).default('sheet') }),
    body: readingBody,
    response: z.union([sheetSchema, receiptSchema]),
    errors: [
      ...visitErrors,
      'reading-superseded',
      'reason-required',
      'same-key-other-body',
      'request-in-flight',
      'changed-meanwhile',
    ],
  }),
  submit: defineRoute({
    method: 'POST',
    path: '/visits/:id/submission',
    tag,
    summary: 'Submit the visit; what failed goes to the builder',
    access: ['rater'],
    params: idParams,
    keyed: true,
    body: submissionBody,
    response: visitSchema,
    errors: [...visitErrors, 'visit-not-complete', 'request-in-flight', 'changed-meanwhile'],
  }),
  notReady: defineRoute({
    method: 'POST',
    path: '/visits/:id/not-ready',
    tag,
    summary: 'The house was not ready; nothing could be read',
    access: ['rater'],
    params: idParams,
    keyed: true,
    body: notReadyBody,
    response: visitSchema,
    errors: [...visitErrors, 'request-in-flight', 'changed-meanwhile'],
  }),
  addPhoto: defineRoute({
    method: 'POST',
    path: '/visits/:id/photos',
    tag,
    summary: 'Attach a photo (multipart: file and these fields)',
    access: ['rater'],
    status: 201,
    form: 'multipart',
    params: idParams,
    body: z.object(photoFields),
    response: photoSchema,
    errors: [...visitErrors, 'file-too-large', 'file-type-refused', 'same-key-other-body'],
  }),
  beginUpload: defineRoute({
    method: 'POST',
    path: '/visits/:id/photo-uploads',
    tag,
    summary: 'Announce a photo that is sent in pieces; announcing it again says how much has arrived',
    access: ['rater'],
    params: idParams,
    body: z.object({
      ...photoFields,
      size: z.int().min(1).max(largestPhoto),
      sha256: z.string().regex(/^[0-9a-f]{64}$/, 'SHA-256 in hexadecimal'),
    }),
    response: photoUploadSchema,
    errors: [...visitErrors, 'same-key-other-body'],
  }),
  showUpload: defineRoute({
    method: 'GET',
    path: '/photo-uploads/:id',
    tag,
    summary: 'How much of a photo has arrived',
    access: ['rater'],
    params: idParams,
    response: photoUploadSchema,
    errors: ['not-found'],
  }),
  sendPiece: defineRoute({
    method: 'PATCH',
    path: '/photo-uploads/:id',
    tag,
    summary: 'The next bytes of a photo, from the offset on; the last ones make it a photo of the visit',
    access: ['rater'],
    form: 'binary',
    params: idParams,
    query: z.object({ offset: z.coerce.number().int().min(0).max(largestPhoto) }),
    body: z.instanceof(Uint8Array).meta({ override: { type: 'string', format: 'binary' } }),
    response: photoUploadSchema,
    errors: [...visitErrors, 'upload-offset', 'upload-differs', 'file-too-large', 'file-type-refused'],
  }),
  reopen: defineRoute({
    method: 'POST',
    path: '/visits/:id/reopening',
    tag,
    summary: 'Open a submitted visit again before anyone has acted on it',
    access: ['rater', 'quality'],
    params: idParams,
    body: z.object({ reason: text(500) }),
    response: okSchema,
    errors: ['not-found', 'visit-not-yours', 'conflict', 'file-sealed'],
  }),
};
