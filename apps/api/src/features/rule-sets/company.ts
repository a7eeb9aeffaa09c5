import type { Company } from '@countercheck/prisma';
import type { Db } from '../../kernel/database/database.ts';

/** The rating company itself. Its row is made at the first start. */
export function currentCompany(db: Db): Promise<Company> {
  return db.company.findUniqueOrThrow({ where: { id: 1 } });
}

/** Two processes starting together both come here; one row results. */
export async function ensureCompany(db: Db): Promise<void> {
  await db.$executeRaw`INSERT INTO company (id, name, updated_at) VALUES (1, 'Rating company', now())
    ON CONFLICT (id) DO NOTHING`;
}
