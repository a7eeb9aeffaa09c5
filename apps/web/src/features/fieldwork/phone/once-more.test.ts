import { expect, it } from 'vitest';
import { onceMore } from './once-more.ts';

const turn = () => new Promise((resolve) => setTimeout(resolve));

it('does what was asked for meanwhile once more, and lets all who asked wait for that', async () => {
  let begun = 0;
  let release = () => {};
  const again = onceMore(async () => {
    begun += 1;
    await new Promise<void>((resolve) => (release = resolve));
  });
  const ended: string[] = [];
  const waits = ['first', 'second', 'third'].map((name) => again().then(() => ended.push(name)));
  expect(begun).toBe(1);
  release();
  await turn();
  expect(begun).toBe(2);
  expect(ended).toEqual([]);
  release();
  await Promise.all(waits);
  expect(begun).toBe(2);
});

it('tries again after a failure, which those who asked are told', async () => {
  const answers = [Promise.reject(new Error('the store is shut')), Promise.resolve()];
  const again = onceMore(() => answers.shift()!);
  await expect(again()).rejects.toThrow('shut');
  await expect(again()).resolves.toBeUndefined();
});
