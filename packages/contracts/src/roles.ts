import * as z from 'zod';

/** People with an account. An installer has none: a personal link opens one house. */
export const roles = ['office', 'rater', 'quality', 'builder', 'administrator'] as const;
export const roleSchema = z.enum(roles).meta({ id: 'Role' });
export type Role = z.infer<typeof roleSchema>;

/** Everyone who may be asking: a role, the holder of an installer's link, or anyone at all. */
export type Access = Role | 'installer-link' | 'anyone';

export const staff = ['office', 'rater', 'quality', 'administrator'] as const satisfies readonly Role[];

export const roleLabels: Record<Role, string> = {
  office: 'Office',
  rater: 'Rater',
  quality: 'Quality manager',
  builder: 'Builder',
  administrator: 'Administrator',
};
