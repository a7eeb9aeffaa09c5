import type { Installer, InstallerLink, InstallerSubmission } from '@countercheck/contracts';
import type {
  Installer as InstallerRow,
  InstallerLink as LinkRow,
  InstallerSubmission as SubmissionRow,
} from '@countercheck/prisma';

export function presentInstaller(row: InstallerRow): Installer {
  const { id, name, companyName, trade, email, phone, active } = row;
  return { id, name, companyName, trade, email, phone, active };
}

export function presentLink(row: LinkRow & { installer: InstallerRow }): InstallerLink {
  const { id, houseId, expiresAt, revokedAt } = row;
  return {
    id,
    houseId,
    installer: presentInstaller(row.installer),
    createdAt: row.createdAt.toISOString(),
    expiresAt: expiresAt.toISOString(),
    revokedAt: revokedAt?.toISOString() ?? null,
    lastUsedAt: row.lastUsedAt?.toISOString() ?? null,
    state: revokedAt ? 'revoked' : expiresAt <= new Date() ? 'expired' : 'open',
  };
}

export const submissionParts = {
  installer: { select: { id: true, name: true, companyName: true } },
};
export type SubmissionWithInstaller = SubmissionRow & { installer: InstallerSubmission['installer'] };

export function presentSubmission(row: SubmissionWithInstaller): InstallerSubmission {
  const { id, revision, installer, signedName } = row;
  return {
    id,
    revision,
    installer,
    figures: row.figures as InstallerSubmission['figures'],
    signedName,
    signedAt: row.signedAt.toISOString(),
    frozenAt: row.frozenAt?.toISOString() ?? null,
  };
}
