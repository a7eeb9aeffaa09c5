import { expect, it } from 'vitest';
import { later } from './later.ts';

it('loads once, tells who listens, and is there at once from then on', async () => {
  let times = 0;
  const part = later(() => Promise.resolve({ number: ++times }));
  let told = 0;
  const stop = part.subscribe(() => (told += 1));
  expect(part.state()).toEqual({ part: null, error: null });
  await Promise.all([part.load(), part.load()]);
  expect(part.state().part).toEqual({ number: 1 });
  expect(await part.load()).toBe(part.state().part);
  expect([times, told]).toEqual([1, 1]);
  stop();
});

it('says why it did not come, and tries again when it is asked again', async () => {
  const answers = [() => Promise.reject(new Error('no network')), () => Promise.resolve('there')];
  const part = later(() => answers.shift()!());
  await expect(part.load()).rejects.toThrow('no network');
  expect(part.state()).toMatchObject({ part: null, error: { message: 'no network' } });
  expect(await part.load()).toBe('there');
  expect(part.state()).toEqual({ part: 'there', error: null });
});
