import type { Locator, Page } from 'playwright-core';
import { testDefinitions, type RawReading, type TestKey } from '@countercheck/measurement';
import { good } from '../../support/house-life.ts';

/** What was typed and picked for a test on a part of the house, by the path of each field. */
export interface Given {
  test: TestKey;
  subjectId: string;
  numbers: Record<string, string>;
}
/** How many taps reaching and keeping a field took, by test and field. */
export type Taps = Map<string, number>;

const at = (raw: Partial<RawReading>, key: string): RawReading['rows'][number] | Partial<RawReading> => {
  const row = /^rows\.(\d+)\./.exec(key);
  return row ? (raw.rows?.[Number(row[1])] ?? raw.rows?.at(-1) ?? {}) : raw;
};
const last = (key: string): string => key.slice(key.lastIndexOf('.') + 1);

/** The cards of what is to be read, each with the test and the part of the house it is of. */
export const cards = (page: Page): Locator => page.locator('.work');

/** Enters every field of the first card, one by one from the sheet, and records its reading. */
export async function enterFirst(
  now: () => Page,
  taps: Taps,
  halfway?: (given: Given) => Promise<void>,
): Promise<Given> {
  const [test, subjectId] = (await cards(now()).first().getAttribute('data-work'))!.split('/') as [
    TestKey,
    string,
  ];
  // The browser may be another one after the halfway.
  const card = () => now().locator(`[data-work="${test}/${subjectId}"]`);
  const pad = () => now().getByRole('dialog');
  const given: Given = { test, subjectId, numbers: {} };
  const raw = good[test];

  async function field(key: string): Promise<void> {
    let count = 0;
    const tap = async (on: Locator) => {
      await on.click();
      count += 1;
    };
    const save = () => tap(pad().getByRole('button', { name: 'Save and next' }));
    const open = () => tap(card().locator(`[data-step="${key}"]`));
    const done = async () => {
      taps.set(`${test}/${subjectId} ${key}`, count);
      await now().keyboard.press('Escape');
    };
    await open();
    await pad().waitFor();
    if (key === 'confirmations') {
      // Each box is a field of its own: opened once, ticked once.
      for (const box of await pad().getByRole('checkbox').all()) {
        count = 1;
        await tap(box);
      }
      return done();
    }
    if (key === 'instrument' || key.includes('choices.')) {
      const { choices = {} } = at(raw, key);
      const definition = testDefinitions[test];
      const options = [...definition.choices, ...(definition.rows?.choices ?? [])].flatMap((each) =>
        each.key === last(key) ? each.options : [],
      );
      const wanted = options.find(({ value }) => value === choices[last(key)])?.label;
      const found = pad().locator('.pad-options button');
      await tap(wanted ? found.filter({ hasText: wanted }).first() : found.first());
      return done();
    }
    if (!key.includes('values.')) {
      await now().keyboard.type(' ok');
      await save();
      return done();
    }
    const value = at(raw, key).values?.[last(key)];
    const text = value === undefined ? '1' : String(value);
    // By the keys of the pad where the number is short, by a keyboard where it is not.
    if (text.length <= 2 && /^\d+$/.test(text))
      for (const digit of text) await pad().getByRole('button', { name: digit, exact: true }).click();
    else await now().keyboard.type(text);
    await save();
    await done();
    if (value !== undefined) return void (given.numbers[key] = text);
    // What the reading does without is tried and taken out again.
    await card().locator(`[data-step="${key}"]`).click();
    await pad().getByRole('button', { name: 'Take back the last digit' }).click();
    await now().keyboard.press('Escape');
  }

  const keys = () =>
    card()
      .locator('[data-step]')
      .evaluateAll((all) => all.map((each) => each.getAttribute('data-step')!));
  for (const key of await keys()) await field(key);
  for (
    let row = await card().locator('[data-step$=".label"]').count();
    row < (raw.rows?.length ?? 0);
    row += 1
  ) {
    await card()
      .getByRole('button', { name: /^Another/ })
      .click();
    await now().keyboard.press('Escape');
    for (const key of (await keys()).filter((each) => each.startsWith(`rows.${row}.`))) await field(key);
  }
  await halfway?.(given);
  await card()
    .getByRole('button', { name: /Look and record/ })
    .click();
  await pad().getByRole('button', { name: 'Record the reading' }).click();
  await pad()
    .getByText(/^Recorded\./)
    .waitFor();
  await now().keyboard.press('Escape');
  return given;
}
