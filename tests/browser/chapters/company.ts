import { expect } from 'vitest';
import { invite } from '../support/administrator.ts';
import { dialog, fill, problemOf } from '../support/forms.ts';
import { comes, people, type Life, type Step } from '../support/life.ts';
import * as office from '../support/office.ts';
import { firstAdministrator } from '../support/people.ts';

export function companyBegins(step: Step, life: Life): void {
  step('the first administrator invites the company', async () => {
    await comes(life, 'administrator', await firstAdministrator(life.server, people.administrator));
    const staff = [
      ['office', 'Office', 1280],
      ['rater', 'Rater', 390],
      ['quality', 'Quality manager', 1280],
    ] as const;
    for (const [who, role, width] of staff)
      await comes(life, who, await invite(life.pages.administrator, { ...people[who], role }), width);
  });

  step('the office registers the instruments', async () => {
    const page = life.pages.office;
    await office.registerInstrument(page, 'Manometer', 'Manometer 1', 'M-1');
    await office.registerInstrument(page, 'Duct tester', 'Duct tester 1', 'D-1');
    await office.registerInstrument(page, 'Exhaust flow meter', 'Exhaust flow meter 1', 'E-1');
    await office.registerInstrument(page, 'Blower door', 'Blower door 1', 'B-1');
  });

  step('the office registers builders, a community and a plan', async () => {
    const page = life.pages.office;
    await office.registerBuilder(page, 'Marlstone Houses');
    await office.addCommunity(page, 'Marl Rise');
    await office.registerBuilder(page, 'Quillbrook Homes');
    await office.addContact(page, { Name: 'Superintendent', Email: 'yard@quillbrook.example' });
    await office.addCommunity(page, 'Weir Field');
    await office.addPlan(page, 'Heron');
  });

  step('forms of the builder say beside the field what they cannot use', async () => {
    const page = life.pages.office;
    const community = await office.beginCommunity(page);
    await fill(community, { Name: 'Weir Meadow', Latitude: 'north' });
    await community.getByRole('button', { name: 'Save' }).click();
    expect(await problemOf(community, /^Latitude/)).toMatch(/number/i);
    await fill(community, { Latitude: '', Name: 'Weir Field' });
    await community.getByRole('button', { name: 'Save' }).click();
    await community.getByText('There is already one of these').waitFor();
    await page.keyboard.press('Escape');
    const plan = await office.beginPlan(page);
    await fill(plan, { Name: 'Crane', 'Conditioned floor area': '40', Bedrooms: 'two' });
    await plan.getByRole('button', { name: 'Save' }).click();
    expect(await problemOf(plan, /^Conditioned floor area/)).toContain('At least 100 ft²');
    expect(await problemOf(plan, /^Bedrooms/)).toMatch(/number/i);
    await page.keyboard.press('Escape');
    await page.goto('/builders');
    await page.getByRole('button', { name: 'Register a builder' }).click();
    await dialog(page).getByRole('button', { name: 'Register' }).click();
    expect(await problemOf(dialog(page), 'Name')).toContain('Please fill this in');
  });

  step('builders come in', async () => {
    const admin = life.pages.administrator;
    const builder = { role: 'Builder', builder: 'Quillbrook Homes' };
    await comes(life, 'builder', await invite(admin, { ...people.builder, ...builder }));
    const other = { role: 'Builder', builder: 'Marlstone Houses' };
    await comes(life, 'otherBuilder', await invite(admin, { ...people.otherBuilder, ...other }));
  });
}
