import * as z from 'zod';

/** Mail that a person can do without. */
export const mailKinds = ['visit-booked', 'visit-moved', 'visit-cancelled'] as const;
export type MailKind = (typeof mailKinds)[number];
export const mailKindSchema = z.enum(mailKinds).meta({ id: 'MailKind' });
