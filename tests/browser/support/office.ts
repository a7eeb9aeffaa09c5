import type { Page } from 'playwright-core';
import { dialog, fill, search, told } from './forms.ts';

/** Opens a page's dialog by its button and gives it back. */
async function openDialog(page: Page, button: string, title: string | RegExp = button) {
  await page.getByRole('button', { name: button, exact: true }).click();
  const form = dialog(page, title);
  await form.waitFor();
  return form;
}
const saved = async (page: Page, words: string) => {
  await told(page, words);
  await dialog(page).waitFor({ state: 'detached' });
};

export async function registerBuilder(page: Page, name: string): Promise<void> {
  await page.goto('/builders');
  const form = await openDialog(page, 'Register a builder');
  await fill(form, { Name: name });
  await form.getByRole('button', { name: 'Register' }).click();
  await page.getByRole('heading', { level: 1, name }).waitFor();
}

export async function addContact(page: Page, contact: Record<string, string>): Promise<void> {
  const form = await openDialog(page, 'Add a contact');
  await fill(form, contact);
  await form.getByRole('button', { name: 'Save' }).click();
  await saved(page, 'Contact saved');
}

export const beginCommunity = (page: Page) => openDialog(page, 'Add a community');

export async function addCommunity(page: Page, name: string): Promise<void> {
  const form = await beginCommunity(page);
  await fill(form, { Name: name, Jurisdiction: 'Upper County', 'Climate zone': '4A' });
  await form.getByRole('button', { name: 'Save' }).click();
  await saved(page, 'Community saved');
}

export const beginPlan = (page: Page) => openDialog(page, 'Add a plan');

const rooms = [
  ['Bedroom 1', 'Bedroom'],
  ['Bedroom 2', 'Bedroom'],
  ['Bath 1', 'Bathroom'],
  ['Kitchen', 'Kitchen'],
] as const;

/** A small house with one ducted system and an exhaust fan for all of it. */
export async function addPlan(page: Page, name: string): Promise<void> {
  const form = await beginPlan(page);
  await fill(form, {
    Name: name,
    'Conditioned floor area': '1800',
    'Conditioned volume': '15300',
    Bedrooms: '2',
    Foundation: 'Slab on grade',
    'Whole-house ventilation': 'Exhaust',
    'Designed ventilation rate': '60',
  });
  const systems = form.getByRole('group', { name: 'Heating and cooling systems' });
  await systems.getByRole('button', { name: 'Add a system' }).click();
  await fill(systems, { Label: 'System 1', Kind: 'Heat pump, ducted', 'Design airflow': '900' });
  const list = form.getByRole('group', { name: 'Bedrooms, bathrooms and kitchens' });
  for (const [i, [label, kind]] of rooms.entries()) {
    await list.getByRole('button', { name: 'Add a room' }).click();
    await list.getByLabel('Label').nth(i).fill(label);
    await list.getByLabel('Kind').nth(i).selectOption({ label: kind });
  }
  await form.getByRole('button', { name: 'Save' }).click();
  await saved(page, 'Plan saved');
}

interface NewHouse {
  builder: string;
  community: string;
  plan: string;
  address: string;
  lot: string;
}

/** Registers a house of a plan and gives its address on the web. */
export async function registerHouse(page: Page, house: NewHouse): Promise<string> {
  await page.goto('/houses/new');
  await search(page, 'Builder', house.builder);
  await fill(page, { Community: house.community, Plan: house.plan, Address: house.address, Lot: house.lot });
  await page.getByRole('button', { name: 'Register the house' }).click();
  await page.getByRole('heading', { level: 1, name: house.address }).waitFor();
  return new URL(page.url()).pathname;
}

export async function registerInstrument(
  page: Page,
  kind: string,
  label: string,
  serial: string,
): Promise<void> {
  await page.goto('/instruments');
  const form = await openDialog(page, 'Register an instrument');
  await fill(form, { Kind: kind, Label: label, 'Serial number': serial });
  await fill(form, { 'Accuracy, %': '3', 'Accuracy, at least': '1' });
  await form.getByRole('button', { name: 'Save' }).click();
  await told(page, 'Instrument saved');
  await page.getByRole('button', { name: 'Record a calibration' }).click();
  const calibration = dialog(page, `Calibration of ${label}`);
  await calibration.getByRole('button', { name: 'Record' }).click();
  await saved(page, 'Calibration recorded');
}

export async function registerInstaller(page: Page, values: Record<string, string>): Promise<void> {
  await page.goto('/installers');
  const form = await openDialog(page, 'Register an installer');
  await fill(form, values);
  await form.getByRole('button', { name: 'Save' }).click();
  await saved(page, 'Installer saved');
}

/** Makes the installer's personal link for a house; it is shown this once. */
export async function sendLink(page: Page, house: string, installer: string): Promise<string> {
  await page.goto(house);
  const form = await openDialog(page, 'Make a link', /^Link for/);
  await search(form, 'Installer', installer);
  await form.getByRole('button', { name: 'Make the link' }).click();
  const link = await form.getByLabel('Link', { exact: true }).inputValue();
  await form.getByRole('button', { name: 'Done' }).click();
  return link;
}

interface Times {
  rater: string;
  day: string;
  start: string;
  end: string;
}

/** Fills the booking form that is open and sends it. */
export async function book(page: Page, { rater, day, start, end }: Times): Promise<void> {
  const form = dialog(page, /^Book a visit to/);
  await fill(form, { Rater: rater, Day: day, Start: start, End: end });
  await form.getByRole('button', { name: 'Book', exact: true }).click();
}
