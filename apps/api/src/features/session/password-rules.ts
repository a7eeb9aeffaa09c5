import { readFileSync } from 'node:fs';
import type { Db } from '../../kernel/database/database.ts';
import { AppError } from '../../kernel/problems/app-error.ts';
import { currentCompany } from '../rule-sets/index.ts';

const shortest = 12;
const longest = 200;
/** how much has to be left when everything guessable is taken away */
const leftOver = 8;

const common = readFileSync(new URL('./common-passwords.txt', import.meta.url), 'utf8')
  .split('\n')
  .map((line) => line.trim())
  .filter((line) => line && !line.startsWith('#'));

const rows = ['abcdefghijklmnopqrstuvwxyz', '01234567890', 'qwertyuiop', 'asdfghjkl', 'zxcvbnm'];
const walks = rows.flatMap((row) => [row, [...row].reverse().join('')]);
const disguises: Record<string, string> = {
  ...{ '0': 'o', '1': 'i', '3': 'e', '4': 'a', '5': 's', '7': 't', '8': 'b' },
  ...{ '@': 'a', $: 's', '!': 'i', '+': 't' },
};

/** Alphabet, digits and keyboard rows in order count as one character, as does one character repeated. */
function withoutWalks(text: string): string {
  let rest = '';
  for (let at = 0; at < text.length;) {
    let length = 1;
    const follows = (end: number) => {
      const piece = text.slice(at, end);
      return end <= text.length && (walks.some((walk) => walk.includes(piece)) || /^(.)\1*$/s.test(piece));
    };
    while (follows(at + length + 1)) length += 1;
    rest += length >= 3 ? text.charAt(at) : text.slice(at, at + length);
    at += length;
  }
  return rest;
}

function guessable(text: string, words: readonly string[]): boolean {
  let rest = text;
  for (const word of words) rest = rest.replaceAll(word, '');
  rest = withoutWalks(rest);
  return rest.length < leftOver || new Set(rest).size < 5;
}

const partsOf = (text: string) =>
  text
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((part) => part.length >= 3);

/** Why a password is refused, in words; undefined when it will do. `own` is what others know of its owner. */
export function passwordWeakness(password: string, own: readonly string[]): string | undefined {
  const length = [...password].length;
  if (length < shortest) return `It has ${length} characters; at least ${shortest} are needed.`;
  if (length > longest) return `At most ${longest} characters can be kept.`;
  const plain = password.toLowerCase();
  if (/^(.{1,8})\1+.{0,3}$/s.test(plain)) return 'It repeats the same few characters.';
  const undisguised = plain.replace(/[0134578@$!+]/g, (mark) => disguises[mark] ?? mark);
  const words = [...new Set([...own.flatMap(partsOf), ...common])].sort((a, b) => b.length - a.length);
  const weak = guessable(plain, words) || guessable(undisguised, words);
  return weak
    ? 'It is made of common words, of your own or the company’s name, or of keys in order.'
    : undefined;
}

export async function refuseWeakPassword(
  db: Db,
  password: string,
  user: { name: string; email: string },
  field = 'password',
): Promise<void> {
  const company = await currentCompany(db);
  const message = passwordWeakness(password, [user.name, user.email, company.name, 'countercheck']);
  if (message) throw new AppError('weak-password', message, [{ path: field, message }]);
}
