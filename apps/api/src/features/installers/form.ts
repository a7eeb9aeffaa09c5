import type { FastifyInstance } from 'fastify';
import { routes, type InstallerSubmission } from '@countercheck/contracts';
import type { Actor, InstallerActor } from '../../kernel/actor.ts';
import { asSystem } from '../../kernel/database/as-system.ts';
import type { Db } from '../../kernel/database/database.ts';
import { implementInTransaction } from '../../kernel/http/implement.ts';
import { found } from '../../kernel/problems/app-error.ts';
import { compiledRuleSet, loadHouseFile } from '../assessment/index.ts';
import { measuresAgain } from '../booking-rules/index.ts';
import { reportedHidden } from '../houses/index.ts';
import { askedFigures, type AskedSubject } from './asked.ts';
import { correctedByFigures, openingOf, presentOpening } from './openings.ts';
import { presentSubmission, submissionParts } from './present.ts';

/** What is asked of the installer of a house, by its parts and its rule set. */
export async function askedOf(db: Db, house: { id: string; ruleSetId: string }): Promise<AskedSubject[]> {
  const { set } = await compiledRuleSet(db, house.ruleSetId);
  return askedFigures(await loadHouseFile(db, house.id), set);
}

/** Signed figures, newest first. Whoever signed is named, also to an installer who knows only himself. */
export async function submissionsOf(db: Db, actor: Actor, houseId: string): Promise<InstallerSubmission[]> {
  const rows = await asSystem(db, actor, () =>
    db.installerSubmission.findMany({
      where: { houseId },
      include: submissionParts,
      orderBy: { revision: 'desc' },
    }),
  );
  return rows.map(presentSubmission);
}

async function formFor(db: Db, actor: InstallerActor) {
  const house = found(
    await db.house.findUnique({
      where: { id: actor.houseId },
      include: { community: { select: { name: true } }, builder: { select: { name: true } } },
    }),
    'house',
  );
  const installer = found(await db.installer.findUnique({ where: { id: actor.id } }), 'installer');
  const link = found(await db.installerLink.findUnique({ where: { id: actor.linkId } }), 'link');
  const company = await db.company.findUniqueOrThrow({ where: { id: 1 }, select: { name: true } });
  const submissions = await submissionsOf(db, actor, house.id);
  const opening = await openingOf(db, house.id);
  return {
    installer: { name: installer.name, companyName: installer.companyName },
    company,
    house: {
      address: house.address,
      lot: house.lot,
      community: house.community.name,
      builder: house.builder.name,
    },
    expiresAt: link.expiresAt.toISOString(),
    subjects: await askedOf(db, house),
    submissions,
    opening: opening && presentOpening(opening),
    frozen:
      house.stage === 'released' ||
      (opening === null && submissions.some(({ frozenAt }) => frozenAt !== null)),
  };
}

export function showFigures(app: FastifyInstance): void {
  implementInTransaction(app, routes.installers.form, ({ db, actor }) => formFor(db, actor));

  implementInTransaction(app, routes.installers.submissions, async ({ db, actor, params }) => {
    const select = { id: true, stage: true, ruleSetId: true };
    const house = found(await db.house.findUnique({ where: params, select }), 'house');
    const rows = await db.figureOpening.findMany({
      where: { houseId: house.id },
      orderBy: { openedAt: 'desc' },
    });
    const openings = rows.map(presentOpening);
    // Why figures were opened again tells what had failed.
    const again = await measuresAgain(db, actor, house.id);
    if (await reportedHidden(db, actor, house))
      return { hidden: true, items: [], openings: again ? [] : openings, mayOpenAgain: false };
    const items = await submissionsOf(db, actor, params.id);
    const closed =
      items.some(({ frozenAt }) => frozenAt !== null) && openings.every(({ closedAt }) => closedAt !== null);
    const mayOpenAgain =
      closed &&
      !['released', 'in_testing'].includes(house.stage) &&
      (await correctedByFigures(db, house)).length > 0;
    return { hidden: false, items, openings, mayOpenAgain };
  });
}
