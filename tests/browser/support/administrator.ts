import type { Page } from 'playwright-core';
import { dialog, fill, search, told } from './forms.ts';
import type { Person } from './people.ts';

interface Invited extends Person {
  role: string;
  builder?: string;
}

/** Invites a user and takes the link from the mail that the service wrote. */
export async function invite(page: Page, { name, email, role, builder }: Invited): Promise<string> {
  await page.goto('/users');
  await page.getByRole('button', { name: 'Invite a user' }).click();
  const form = dialog(page, 'Invite a user');
  await fill(form, { Name: name, Email: email, Role: role });
  if (builder) await search(form, 'Builder', builder);
  await form.getByRole('button', { name: 'Invite' }).click();
  await told(page, `Invitation to ${email} written`);
  return linkMailedTo(page, email);
}

async function linkMailedTo(page: Page, email: string): Promise<string> {
  await page.goto(`/mail?search=${encodeURIComponent(email)}`);
  await page.locator('summary').first().click();
  const body = await page.locator('details[open]').first().innerText();
  const link = /https?:\/\/\S+/.exec(body)?.[0];
  if (!link) throw new Error(`No link in the mail to ${email}: ${body}`);
  return link;
}
