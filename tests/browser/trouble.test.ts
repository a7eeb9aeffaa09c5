import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { withClient } from '@countercheck/host/database';
import { demoPassword } from '../../prisma/demo/sign-ins.ts';
import { dialog, fill, told } from './support/forms.ts';
import { settled } from './support/health.ts';
import { installersLink, openVisit } from './support/addresses.ts';
import * as rater from './support/rater.ts';
import { demoService } from './support/service.ts';

const service = demoService();

const api = '**/api/**';
const cut = (page: Page) => page.route(api, (route) => route.abort('connectionrefused'));
const mend = (page: Page) => page.unroute(api);

/** The rater with a reading typed and not recorded. */
async function typing(
  title = 'Return static pressure',
  pressure = '-0.11',
): Promise<{ page: Page; form: ReturnType<Page['locator']> }> {
  const context = await service.people.open('rater', { width: 390 });
  const page = await context.newPage();
  await page.goto(`/visits/${await openVisit(service.people.ask)}`);
  const opened = await rater.openItem(page, title);
  const form = await rater.formOf(opened, title);
  for (const box of await form.getByRole('checkbox').all()) await box.check();
  await form.getByLabel(/^Instrument/).selectOption({ index: 1 });
  await fill(form, { Pressure: pressure });
  return { page, form };
}
const recorded = async (form: ReturnType<Page['locator']>) => {
  await form.getByRole('button', { name: 'Record the reading' }).click();
  await form.waitFor({ state: 'detached' });
};

it('keeps what was typed, and what was recorded, while the server cannot be reached', async () => {
  const { page, form } = await typing();
  await cut(page);
  await page.reload();
  const again = await rater.formOf(
    await rater.openItem(page, 'Return static pressure'),
    'Return static pressure',
  );
  await told(page, 'This was typed before and kept on this device');
  expect(await again.getByLabel(/^Pressure/).inputValue()).toBe('-0.11');
  await recorded(form);
  await told(page, '1 not sent');
  await page.reload();
  await told(page, '1 not sent');
  await mend(page);
  await page.reload();
  await rater.allSent(page);
  await page.context().close();
});

it('asks to sign in again over the page and sends what was kept meanwhile', async () => {
  const { page, form } = await typing('Supply static pressure', '0.09');
  await page.context().clearCookies();
  await recorded(form);
  const asked = dialog(page, 'Sign in again to go on');
  await told(page, '1 not sent');
  await asked.getByLabel('Password').fill(demoPassword);
  await asked.getByRole('button', { name: 'Sign in' }).click();
  await asked.waitFor({ state: 'detached' });
  await rater.allSent(page);
  await page.context().close();
});

it('says on a page that the server cannot be reached, and goes on when it can', async () => {
  const context = await service.people.open('office');
  const page = await context.newPage();
  await page.goto('/');
  await settled(page);
  await cut(page);
  await page.getByRole('link', { name: 'Builders' }).first().click();
  await page.getByRole('alert').waitFor();
  await mend(page);
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.getByRole('table').waitFor();
  await context.close();
});

it('keeps a form that could not be sent', async () => {
  const context = await service.people.open('office');
  const page = await context.newPage();
  await page.goto('/builders');
  await page.getByRole('button', { name: 'Register a builder' }).click();
  await fill(dialog(page), { Name: 'Tallow Homes' });
  await cut(page);
  await dialog(page).getByRole('button', { name: 'Register' }).click();
  await dialog(page).getByRole('alert').waitFor();
  expect(await dialog(page).getByLabel('Name').inputValue()).toBe('Tallow Homes');
  await mend(page);
  await dialog(page).getByRole('button', { name: 'Register' }).click();
  await page.getByRole('heading', { level: 1, name: 'Tallow Homes' }).waitFor();
  await context.close();
});

const spoilt = {
  expired: `UPDATE installer_links SET expires_at = now() - interval '1 day', created_at = now() - interval '9 days'`,
  withdrawn: `UPDATE installer_links SET revoked_at = now()`,
};
it.each(Object.entries(spoilt))('tells an installer that his link is %s', async (state, sql) => {
  const link = await installersLink(service.people.ask);
  await withClient(service.server.ownerUrl, (client) => client.query(sql));
  const page = await (await service.people.open('nobody', { width: 390 })).newPage();
  await page.goto(link);
  await told(page, new RegExp(`This link (has|was) ${state}`));
  await told(page, 'Ask the rating company for a new link.');
  await page.context().close();
});

it('tells an installer that there is no such link', async () => {
  const page = await (await service.people.open('nobody', { width: 390 })).newPage();
  await page.goto('/figures/half-an-address');
  await told(page, 'Check that the whole address was copied.');
  await page.context().close();
});
