import type { Me } from '@countercheck/contracts';
import type { Db } from '../../kernel/database/database.ts';
import { currentCompany } from '../rule-sets/index.ts';

/** What a person sees of his own account; read as that person, or as the system while signing in. */
export async function presentMe(db: Db, userId: string): Promise<Me> {
  const company = await currentCompany(db);
  const user = await db.user.findUniqueOrThrow({ where: { id: userId }, include: { builder: true } });
  const required = company.requireSecondFactor && ['quality', 'administrator'].includes(user.role);
  return {
    id: user.id,
    name: user.name,
    email: user.email,
    role: user.role,
    builder: user.builder && { id: user.builder.id, name: user.builder.name },
    unitSystem: user.unitSystem ?? company.unitSystem,
    secondFactor: { active: user.totpConfirmedAt !== null, required },
    company: {
      name: company.name,
      timezone: company.timezone,
      blindSecondReading: company.blindSecondReading,
    },
  };
}
