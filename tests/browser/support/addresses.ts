import { demoSignIns } from '../../../prisma/demo/sign-ins.ts';
import type { Role } from '@countercheck/contracts';

/** Reads or writes through the API as somebody; the answer's body. */
export type Ask = <T = { items: { id: string }[] }>(
  who: Role,
  method: 'GET' | 'POST' | 'PATCH' | 'DELETE',
  path: string,
  body?: object,
) => Promise<T>;

/** The first record of a list. */
export const first = async (ask: Ask, who: Role, path: string) => (await ask(who, 'GET', path)).items[0]!.id;

export async function installersLink(ask: Ask): Promise<string> {
  const house = await first(ask, 'office', '/houses?stage=awaiting_figures');
  const installerId = await first(ask, 'office', '/installers');
  const body = { installerId };
  const { url } = await ask<{ url: string }>('office', 'POST', `/houses/${house}/installer-links`, body);
  return new URL(url).pathname;
}

export async function readinessLink(ask: Ask): Promise<string> {
  const request = await first(ask, 'office', '/visit-requests?state=open');
  const path = `/visit-requests/${request}/readiness-links`;
  const { url } = await ask<{ url: string }>('office', 'POST', path, { name: 'Superintendent' });
  return new URL(url).pathname;
}

export async function mailLink(ask: Ask): Promise<string> {
  const builder = await first(ask, 'office', '/builders');
  const { contacts } = await ask<{ contacts: { id: string }[] }>('office', 'GET', `/builders/${builder}`);
  const path = `/contacts/${contacts[0]!.id}/mail-link`;
  const { url } = await ask<{ url: string }>('office', 'POST', path);
  return new URL(url).pathname;
}

export async function openVisit(ask: Ask): Promise<string> {
  const { items } = await ask<{ items: { id: string; state: string; rater: { name: string } }[] }>(
    'rater',
    'GET',
    '/visits?pageSize=100',
  );
  const own = demoSignIns.find(({ role }) => role === 'Rater')!.name;
  return items.find(({ state, rater }) => state === 'booked' && rater.name === own)!.id;
}

export async function sealedFile(ask: Ask): Promise<string> {
  const house = await first(ask, 'quality', '/houses?stage=released');
  const file = await ask<{ releases: { id: string }[] }>('quality', 'GET', `/houses/${house}/file`);
  return `/releases/${file.releases[0]!.id}`;
}

/** The same as its builder comes to it. */
export async function ownSealedFile(ask: Ask): Promise<string> {
  const house = await first(ask, 'builder', '/houses?stage=released');
  const { releaseId } = await ask<{ releaseId: string }>('builder', 'GET', `/houses/${house}/result`);
  return `/releases/${releaseId}`;
}

async function whenEnded(ask: Ask, who: Parameters<Ask>[0], path: string): Promise<string> {
  for (;;) {
    const { state } = await ask<{ state: string }>(who, 'GET', path);
    if (state === 'done') return path;
    if (state !== 'waiting' && state !== 'running') throw new Error(`${path}: ${state}`);
    await new Promise((resolve) => setTimeout(resolve, 300));
  }
}

/** Common practice gives way to the stricter set of the company. */
export async function endedReplay(ask: Ask): Promise<string> {
  const sets = await ask<{ id: string; key: string }[]>('quality', 'GET', '/rule-sets');
  const ruleSetId = sets.find(({ key }) => key === 'company-strict')!.id;
  const { id } = await ask<{ id: string }>('quality', 'POST', '/replays', { ruleSetId, filter: {} });
  return whenEnded(ask, 'quality', `/replays/${id}`);
}

export async function endedRecall(ask: Ask): Promise<string> {
  const instrumentId = await first(ask, 'quality', '/instruments?kind=manometer');
  const { id } = await ask<{ id: string }>('quality', 'POST', '/recalls', {
    ...{ instrumentId, from: '2000-01-01', to: '2099-12-31', reason: 'Found at the yearly calibration' },
    error: { kind: 'offset', value: -2 },
  });
  return whenEnded(ask, 'quality', `/recalls/${id}`);
}

/** A plan of the coming days, searched for as short as it may be. */
export async function endedPlan(ask: Ask): Promise<string> {
  const raters = await ask<{ id: string }[]>('office', 'GET', '/raters');
  const day = (later: number) => new Date(Date.now() + later * 86_400_000).toISOString().slice(0, 10);
  const { id } = await ask<{ id: string }>('office', 'POST', '/plans', {
    ...{ from: day(1), to: day(8), raterIds: raters.map((each) => each.id), seconds: 1 },
  });
  return whenEnded(ask, 'office', `/plans/${id}`);
}

/** A draw whose population is frozen and whose seed is still secret. */
export async function frozenDraw(ask: Ask): Promise<string> {
  const plan = {
    title: 'Files of the year',
    purpose: 'file-review',
    method: 'stratified',
    size: { share: 1000 },
  };
  const { id } = await ask<{ id: string }>('quality', 'POST', '/draws', plan);
  await ask('quality', 'POST', `/draws/${id}/frame`, { state: 'both' });
  return `/draws/${id}`;
}

/** The batch of the demo, with a set that was widened. */
export const openBatch = async (ask: Ask): Promise<string> =>
  `/batches/${await first(ask, 'quality', '/batches')}`;

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);
/** The released house that was last changed; others may be under review already. */
const releasedHouse = (ask: Ask) => first(ask, 'quality', '/houses?stage=released');

/** A review that nobody has taken. */
export async function reviewToTake(ask: Ask): Promise<string> {
  const { items } = await ask('quality', 'GET', '/file-reviews?which=unassigned');
  if (items[0]) return `/file-reviews/${items[0].id}`;
  const body = { houseId: await releasedHouse(ask), dueOn: inDays(14), reason: 'Agrees too well' };
  return `/file-reviews/${(await ask<{ id: string }>('quality', 'POST', '/file-reviews', body)).id}`;
}

/** A re-test that waits for its visit. */
export async function orderedRetest(ask: Ask): Promise<string> {
  const body = { houseId: await releasedHouse(ask), dueOn: inDays(21), reason: 'Agrees too well' };
  return `/retests/${(await ask<{ id: string }>('quality', 'POST', '/retests', body)).id}`;
}

/** An action on a rater that holds nobody. */
export async function openAction(ask: Ask): Promise<string> {
  const raters = await ask<{ id: string }[]>('quality', 'GET', '/raters');
  const { id } = await ask<{ id: string }>('quality', 'POST', '/corrective-actions', {
    ...{ subject: 'rater', raterId: raters[0]!.id, cause: 'Copied figures', action: 'Rides along' },
    ...{ cleanFilesNeeded: 5, effectivenessDueOn: inDays(90) },
  });
  return `/corrective-actions/${id}`;
}

/** What the readings of the demo's year come to. */
export async function foundSignal(ask: Ask): Promise<string> {
  const day = (offset: number) => new Date(Date.now() + offset * 86_400_000).toISOString().slice(0, 10);
  const body = { from: day(-400), to: day(1) };
  const { id } = await ask<{ id: string }>('quality', 'POST', '/signal-runs', body);
  await whenEnded(ask, 'quality', `/signal-runs/${id}`);
  return `/signals/${await first(ask, 'quality', `/signal-findings?runId=${id}`)}`;
}

export async function chartOfRater(ask: Ask): Promise<string> {
  const raters = await ask<{ id: string }[]>('quality', 'GET', '/raters');
  return `/control-charts?subject=rater&id=${raters[0]!.id}&item=bath-exhaust`;
}
