import * as z from 'zod';
import { emailSchema, idSchema, instantSchema, okSchema, text } from '../common.ts';
import { roles, roleSchema } from '../roles.ts';
import { defineRoute } from '../route.ts';

export const unitSystemSchema = z.enum(['us', 'si']);

export const meSchema = z
  .object({
    id: idSchema,
    name: z.string(),
    email: z.string(),
    role: roleSchema,
    builder: z.object({ id: idSchema, name: z.string() }).nullable(),
    unitSystem: unitSystemSchema,
    secondFactor: z.object({ active: z.boolean(), required: z.boolean() }),
    company: z.object({ name: z.string(), timezone: z.string(), blindSecondReading: z.boolean() }),
  })
  .meta({ id: 'Me' });
export type Me = z.infer<typeof meSchema>;

const password = z.string().min(1, 'Please fill this in').max(200);
const code = z
  .string()
  .trim()
  .regex(/^\d{6}$/, 'Six digits');
const tag = 'Sign-in';

export const session = {
  signIn: defineRoute({
    method: 'POST',
    path: '/session',
    tag,
    summary: 'Sign in with email and password',
    access: ['anyone'],
    body: z.object({ email: emailSchema, password }),
    response: z.object({ next: z.enum(['signed-in', 'second-factor']), me: meSchema.nullable() }),
    errors: ['wrong-credentials', 'too-many-requests'],
  }),
  secondFactor: defineRoute({
    method: 'POST',
    path: '/session/second-factor',
    tag,
    summary: 'Finish signing in with the authenticator code',
    access: ['anyone'],
    body: z.object({ code }),
    response: meSchema,
    errors: ['sign-in-required', 'wrong-second-factor', 'too-many-requests'],
  }),
  me: defineRoute({
    method: 'GET',
    path: '/session',
    tag,
    summary: 'Who is signed in',
    access: roles,
    response: meSchema,
  }),
  signOut: defineRoute({
    method: 'DELETE',
    path: '/session',
    tag,
    summary: 'Sign out and end the session',
    access: ['anyone'],
    response: okSchema,
  }),
  changeMe: defineRoute({
    method: 'PATCH',
    path: '/me',
    tag,
    summary: 'Change own name or units',
    access: roles,
    body: z.object({ name: text(120).optional(), unitSystem: unitSystemSchema.optional() }),
    response: meSchema,
  }),
  changePassword: defineRoute({
    method: 'POST',
    path: '/me/password',
    tag,
    summary: 'Change own password; other sessions end',
    access: roles,
    body: z.object({ current: password, next: password }),
    response: okSchema,
    errors: ['wrong-credentials', 'weak-password', 'too-many-requests'],
  }),
  beginSecondFactor: defineRoute({
    method: 'POST',
    path: '/me/second-factor',
    tag,
    summary: 'Begin setting up an authenticator',
    access: roles,
    body: z.object({ password }),
    errors: ['wrong-credentials', 'conflict', 'too-many-requests'],
    response: z.object({ secret: z.string(), uri: z.string(), qrSvg: z.string() }),
  }),
  confirmSecondFactor: defineRoute({
    method: 'POST',
    path: '/me/second-factor/confirmation',
    tag,
    summary: 'Confirm the authenticator with a code',
    access: roles,
    body: z.object({ code }),
    response: meSchema,
    errors: ['wrong-second-factor', 'conflict', 'too-many-requests'],
  }),
  removeSecondFactor: defineRoute({
    method: 'POST',
    path: '/me/second-factor/removal',
    tag,
    summary: 'Remove the authenticator',
    access: roles,
    body: z.object({ password, code }),
    response: meSchema,
    errors: ['wrong-credentials', 'wrong-second-factor', 'not-allowed', 'too-many-requests'],
  }),
  askReset: defineRoute({
    method: 'POST',
    path: '/password-resets',
    tag,
    summary: 'Ask for a link to set a new password',
    access: ['anyone'],
    body: z.object({ email: emailSchema }),
    response: okSchema,
    errors: ['too-many-requests'],
  }),
  accessLink: defineRoute({
    method: 'GET',
    path: '/access-links/:token',
    tag,
    summary: 'What an invitation or reset link is for',
    access: ['anyone'],
    params: z.object({ token: z.string().min(10).max(200) }),
    response: z.object({
      purpose: z.enum(['invitation', 'password_reset']),
      name: z.string(),
      email: z.string(),
      expiresAt: instantSchema,
    }),
    errors: ['link-unknown', 'link-expired', 'link-used'],
  }),
  useAccessLink: defineRoute({
    method: 'POST',
    path: '/access-links/:token',
    tag,
    summary: 'Set a password through an invitation or reset link',
    access: ['anyone'],
    params: z.object({ token: z.string().min(10).max(200) }),
    body: z.object({ password }),
    response: okSchema,
    errors: ['link-unknown', 'link-expired', 'link-used', 'weak-password', 'too-many-requests'],
  }),
};
