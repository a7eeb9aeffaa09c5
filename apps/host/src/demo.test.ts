import { expect, test } from 'vitest';
import { urlFor } from './database.ts';
import { table } from './demo.ts';

test('the columns of the sign-ins stand below each other', () => {
  expect(
    table([
      ['Role', 'Email'],
      ['Quality manager', 'q@x.example'],
    ]),
  ).toBe('  Role              Email\n  Quality manager   q@x.example');
});

test('a password with signs of its own survives in a database URL', () => {
  const url = urlFor('postgresql://postgres:x@127.0.0.1:5432/postgres', {
    user: 'countercheck_app',
    password: 'a/b@c:d',
    database: 'houses',
  });
  expect(decodeURIComponent(new URL(url).password)).toBe('a/b@c:d');
  expect(new URL(url).pathname).toBe('/houses');
});
