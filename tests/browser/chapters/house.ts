import { expect } from 'vitest';
import { fill, problemOf, search, told } from '../support/forms.ts';
import { enterFigures, signFigures, waitForSigned } from '../support/installer.ts';
import { address, visitDay, type Life, type Step } from '../support/life.ts';
import * as office from '../support/office.ts';
import { newcomer } from '../support/people.ts';

const columns = 'lot,address,community,plan';
const figures = (supply: string) => ({
  'System 1': { 'Supply static pressure': supply, 'Return static pressure': '0.1' },
});

export function houseIsRegistered(step: Step, life: Life): void {
  step('the office registers the house of a plan', async () => {
    const page = life.pages.office;
    await page.goto('/houses/new');
    await search(page, 'Builder', 'Quillbrook Homes');
    await fill(page, { Address: address });
    await page.getByRole('button', { name: 'Register the house' }).click();
    expect(await problemOf(page, 'Community')).toMatch(/Choose|fill/);
    expect(await page.getByLabel('Address').inputValue()).toBe(address);
    const place = { builder: 'Quillbrook Homes', community: 'Weir Field', plan: 'Heron' };
    life.house = await office.registerHouse(page, { ...place, address, lot: '14' });
  });

  step('the office loads houses from a file, once every row is good', async () => {
    const page = life.pages.office;
    await page.goto('/houses/import');
    await search(page, 'Builder', 'Quillbrook Homes');
    const good = '15,16 Weir Lane,Weir Field,Heron';
    const file = (rows: string[]) => [columns, ...rows].join('\n');
    await fill(page, { 'or paste the rows': file([good, '16,18 Weir Lane,Wier Field,Heron']) });
    await page.getByRole('button', { name: 'Check the file' }).click();
    await page.getByRole('heading', { name: '1 good rows, 1 with problems' }).waitFor();
    const bad = page.getByRole('row').filter({ hasText: '18 Weir Lane' });
    expect(await bad.innerText()).toContain('Wier Field');
    expect(await page.getByRole('button', { name: /^Register \d/ }).count()).toBe(0);
    await fill(page, { 'or paste the rows': file([good, '16,18 Weir Lane,Weir Field,Heron']) });
    await page.getByRole('button', { name: 'Check the file' }).click();
    await page.getByRole('button', { name: 'Register 2 houses' }).click();
    const loaded = page.getByRole('row').filter({ hasText: 'Quillbrook Homes' });
    await loaded.getByText('Done').waitFor();
    await loaded.getByRole('link', { name: 'Quillbrook Homes' }).click();
    await page.getByRole('link', { name: '18 Weir Lane' }).waitFor();
  });

  step('the office sends the installer his link', async () => {
    const page = life.pages.office;
    await office.registerInstaller(page, {
      Name: 'Duct Crew',
      Company: 'Marsh Air',
      Email: 'crew@marsh.example',
    });
    life.link = await office.sendLink(page, life.house, 'Duct Crew');
  });

  step('the installer signs figures without an account, and corrects them once', async () => {
    const page = (life.pages.installer = await newcomer(life.browser, life.server.url, 390));
    await page.goto(life.link);
    await enterFigures(page, figures('about 0.1'));
    await page.getByRole('button', { name: 'Sign the figures' }).click();
    expect(await problemOf(page, /^Supply static pressure/)).toMatch(/number/i);
    expect(await page.getByLabel(/^Supply static pressure/).inputValue()).toBe('about 0.1');
    expect(await problemOf(page, 'Your full name')).toContain('Type your name to sign.');
    await signFigures(page, 'Duct Crew Leader', figures('0.58'));
    await waitForSigned(page, 1);
    await page.getByRole('button', { name: 'Correct and sign again' }).click();
    await signFigures(page, 'Duct Crew Leader', figures('0.085'));
    await waitForSigned(page, 2);
    await told(page, '0.085 in. w.c.');
  });

  step('the office books the visit; nobody is in two houses at once', async () => {
    const page = life.pages.office;
    const times = { rater: 'First Rater', day: visitDay, start: '09:00', end: '11:00' };
    await page.goto(life.house);
    await page.getByRole('button', { name: 'Book a visit' }).click();
    await office.book(page, { ...times, end: '08:00' });
    expect(await problemOf(page, 'End')).toMatch(/\w/);
    await office.book(page, times);
    await told(page, 'Visit booked');
    await page.goto('/houses?search=16+Weir');
    await page.getByRole('link', { name: '16 Weir Lane' }).click();
    await page.getByRole('button', { name: 'Book a visit' }).click();
    await office.book(page, { ...times, start: '10:30', end: '12:00' });
    await told(page, 'The rater is booked at that time');
    expect(await problemOf(page, 'Start')).toContain('Booked already');
    expect(await page.getByLabel('Start').inputValue()).toBe('10:30');
  });
}
