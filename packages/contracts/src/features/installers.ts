import * as z from 'zod';
import {
  emailSchema,
  idParams,
  idSchema,
  instantSchema,
  okSchema,
  optionalText,
  pageOf,
  pageQuery,
  text,
} from '../common.ts';
import { defineRoute } from '../route.ts';

export const installerBody = z.object({
  name: text(120),
  companyName: text(120),
  trade: z
    .enum(['hvac-installer', 'insulator-air-sealer', 'electrician', 'plumber'])
    .default('hvac-installer'),
  email: emailSchema.nullish().transform((v) => v ?? null),
  phone: optionalText(40),
});
export const installerSchema = z
  .object({
    id: idSchema,
    name: z.string(),
    companyName: z.string(),
    trade: z.string(),
    email: z.string().nullable(),
    phone: z.string().nullable(),
    active: z.boolean(),
  })
  .meta({ id: 'Installer' });
export type Installer = z.infer<typeof installerSchema>;

export const linkSchema = z
  .object({
    id: idSchema,
    houseId: idSchema,
    installer: installerSchema,
    createdAt: instantSchema,
    expiresAt: instantSchema,
    revokedAt: instantSchema.nullable(),
    lastUsedAt: instantSchema.nullable(),
    state: z.enum(['open', 'expired', 'revoked']),
  })
  .meta({ id: 'InstallerLink' });
export type InstallerLink = z.infer<typeof linkSchema>;

/** figures by subject, then by figure name, in the figure's stored unit; null or absent = not reported */
export const figuresSchema = z.record(
  z.string().max(80),
  z.record(z.string().max(60), z.number().nullable()),
);
export const submissionSchema = z
  .object({
    id: idSchema,
    revision: z.int(),
    installer: z.object({ id: idSchema, name: z.string(), companyName: z.string() }),
    figures: figuresSchema,
    signedName: z.string(),
    signedAt: instantSchema,
    frozenAt: instantSchema.nullable(),
  })
  .meta({ id: 'InstallerSubmission' });
export type InstallerSubmission = z.infer<typeof submissionSchema>;

/** Frozen figures opened to the installer once more, for a reinspection. */
export const openingSchema = z
  .object({
    id: idSchema,
    reason: z.string(),
    openedBy: z.string(),
    openedAt: instantSchema,
    closedAt: instantSchema.nullable().describe('with the first reading after it'),
  })
  .meta({ id: 'FigureOpening' });
export type FigureOpening = z.infer<typeof openingSchema>;

/** What the holder of the link may see: his house, what is asked of him and what he signed. */
export const figuresFormSchema = z
  .object({
    installer: z.object({ name: z.string(), companyName: z.string() }),
    company: z.object({ name: z.string() }),
    house: z.object({ address: z.string(), lot: z.string(), community: z.string(), builder: z.string() }),
    expiresAt: instantSchema,
    subjects: z.array(
      z.object({
        id: z.string(),
        kind: z.string(),
        label: z.string(),
        figures: z.array(
          z.object({
            name: z.string(),
            label: z.string(),
            quantity: z.string(),
            min: z.number(),
            max: z.number(),
            required: z.boolean(),
            help: z.string().nullable(),
          }),
        ),
      }),
    ),
    submissions: z.array(submissionSchema).describe('newest first'),
    opening: openingSchema.nullable().describe('why figures that were read against are open again'),
    frozen: z.boolean(),
  })
  .meta({ id: 'FiguresForm' });
export type FiguresForm = z.infer<typeof figuresFormSchema>;

const linkBody = z.object({ installerId: idSchema, days: z.int().min(1).max(365).optional() });
const sentLinkSchema = z.object({
  link: linkSchema,
  url: z.string().describe('shown once; only its hash is kept'),
});

const keepers = ['office', 'administrator'] as const;
const readers = ['office', 'rater', 'quality', 'administrator'] as const;
const tag = 'Installers';
const tokenParams = z.object({ token: z.string().min(10).max(200) });
const linkErrors = ['link-unknown', 'link-expired', 'link-revoked'] as const;

export const installers = {
  list: defineRoute({
    method: 'GET',
    path: '/installers',
    tag,
    summary: 'Installers, filtered',
    access: readers,
    query: pageQuery.extend({ search: z.string().trim().max(100).optional() }),
    response: pageOf(installerSchema),
  }),
  register: defineRoute({
    method: 'POST',
    path: '/installers',
    tag,
    summary: 'Register an installer',
    access: keepers,
    status: 201,
    body: installerBody,
    response: installerSchema,
  }),
  change: defineRoute({
    method: 'PATCH',
    path: '/installers/:id',
    tag,
    summary: 'Change an installer',
    access: keepers,
    params: idParams,
    body: installerBody.extend({ active: z.boolean() }).partial(),
    response: installerSchema,
    errors: ['not-found'],
  }),
  links: defineRoute({
    method: 'GET',
    path: '/houses/:id/installer-links',
    tag,
    summary: 'Links sent for a house',
    access: readers,
    params: idParams,
    response: z.array(linkSchema),
    errors: ['not-found'],
  }),
  sendLink: defineRoute({
    method: 'POST',
    path: '/houses/:id/installer-links',
    tag,
    summary: 'Make a personal link for an installer; mailed when he has an address',
    access: keepers,
    status: 201,
    params: idParams,
    body: linkBody,
    response: sentLinkSchema,
    errors: ['not-found', 'file-sealed'],
  }),
  revokeLink: defineRoute({
    method: 'DELETE',
    path: '/installer-links/:id',
    tag,
    summary: 'Withdraw a link',
    access: keepers,
    params: idParams,
    response: okSchema,
    errors: ['not-found'],
  }),
  submissions: defineRoute({
    method: 'GET',
    path: '/houses/:id/submissions',
    tag,
    summary: 'Signed figures of a house (hidden from the rater while the second reading is blind)',
    access: readers,
    params: idParams,
    response: z.object({
      hidden: z.boolean(),
      items: z.array(submissionSchema),
      openings: z.array(openingSchema).describe('newest first'),
      mayOpenAgain: z.boolean().describe('a corrected item is judged by frozen figures'),
    }),
    errors: ['not-found'],
  }),
  openAgain: defineRoute({
    method: 'POST',
    path: '/houses/:id/figure-openings',
    tag,
    summary: 'Open frozen figures to the installer again, for the reinspection of a corrected item',
    access: ['office', 'quality', 'administrator'],
    status: 201,
    params: idParams,
    body: linkBody.extend({ reason: text(500) }),
    response: sentLinkSchema.extend({ opening: openingSchema }),
    errors: ['not-found', 'file-sealed', 'conflict'],
  }),
  form: defineRoute({
    method: 'GET',
    path: '/figures/:token',
    tag,
    summary: 'What the link asks for',
    access: ['installer-link'],
    params: tokenParams,
    response: figuresFormSchema,
    errors: linkErrors,
  }),
  sign: defineRoute({
    method: 'POST',
    path: '/figures/:token',
    tag,
    summary: 'Sign the figures, or a correction of them',
    access: ['installer-link'],
    status: 201,
    params: tokenParams,
    body: z.object({
      figures: figuresSchema,
      signedName: text(120),
      expectedRevision: z.int().min(0).describe('the newest revision seen, 0 when none'),
    }),
    response: submissionSchema,
    errors: [...linkErrors, 'figures-frozen', 'conflict'],
  }),
};
