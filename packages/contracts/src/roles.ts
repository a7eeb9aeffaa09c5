import * as z from 'zod';

/** People with an account. An installer has none: a personal link opens one house. */
export const roles = ['office', 'rater', 'quality', 'builder', 'administrator'] as const;
export const roleSchema = z.enum(roles).meta({ id: 'Role' });
export type Role = z.infer<typeof roleSchema>;

/**
 * Personal links, each of which opens one thing: a house's figures, its readiness list, a rater's calendar, what a
 * contact wants mail of.
 */
export const linkAccesses = ['installer-link', 'readiness-link', 'calendar-link', 'mail-link'] as const;
export type LinkAccess = (typeof linkAccesses)[number];

/** Everyone who may be asking: a role, the holder of a personal link, or anyone at all. */
export type Access = Role | LinkAccess | 'anyone';

export const staff = ['office', 'rater', 'quality', 'administrator'] as const satisfies readonly Role[];

export const roleLabels: Record<Role, string> = {
  office: 'Office',
  rater: 'Rater',
  quality: 'Quality manager',
  builder: 'Builder',
  administrator: 'Administrator',
};
