import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import type { Browser, Page } from 'playwright-core';
import { root } from '@countercheck/host/places';
import { secretKey } from '../../support/secret-key.ts';
import type { TestServer } from '../../support/server.ts';

export interface Person {
  name: string;
  email: string;
  password: string;
}

/** Whoever comes to the service brings a browser of their own: nothing is shared but the server. */
export async function newcomer(browser: Browser, url: string, width = 1280): Promise<Page> {
  const height = width < 600 ? 844 : 900;
  const context = await browser.newContext({ baseURL: url, viewport: { width, height }, locale: 'en-US' });
  context.setDefaultTimeout(30_000);
  return context.newPage();
}

async function signIn(page: Page, { email, password }: Person): Promise<void> {
  await page.goto('/sign-in');
  await page.getByLabel('Email').fill(email);
  await page.getByLabel('Password').fill(password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.getByRole('button', { name: /^Account of/ }).waitFor();
}

/** Opens the link of an invitation, chooses a password and signs in with it. */
export async function acceptInvitation(page: Page, link: string, person: Person): Promise<void> {
  await page.goto(link);
  await page.getByRole('heading', { name: `Welcome, ${person.name}` }).waitFor();
  await page.getByLabel('Password').fill(person.password);
  await page.getByRole('button', { name: 'Set the password' }).click();
  await page.getByText(`You can sign in as ${person.email} now.`).waitFor();
  await signIn(page, person);
}

/** What the operator of a new installation types first; gives the link to the first password. */
export async function firstAdministrator(server: TestServer, { email, name }: Person): Promise<string> {
  const { stdout } = await promisify(execFile)(
    process.execPath,
    [
      ...['--import', 'tsx', 'apps/api/src/commands/create-administrator.ts'],
      ...['--email', email, '--name', name],
    ],
    {
      cwd: root,
      env: {
        ...process.env,
        DATABASE_URL: server.appUrl,
        SECRET_KEY: secretKey,
        PUBLIC_URL: server.url,
      },
    },
  );
  return stdout.trim();
}
