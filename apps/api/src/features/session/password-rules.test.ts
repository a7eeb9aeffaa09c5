import { describe, expect, it } from 'vitest';
import { passwordWeakness } from './password-rules.ts';

const own = ['Ada Quill', 'ada.quill@weir-rating.example', 'Weir Rating', 'countercheck'];

describe('the password rules', () => {
  it.each([
    ['short1!', 'too short'],
    ['password1234', 'a common word and digits in order'],
    ['P@ssw0rd2026!', 'disguised'],
    ['welcomepassword1', 'two common words'],
    ['qwertyuiop123', 'a keyboard row'],
    ['abcdefghijklmnop', 'the alphabet'],
    ['987654321098', 'digits backwards'],
    ['aaaaaaaaaaaaaaa', 'one character'],
    ['xyzxyzxyzxyz', 'repeated'],
    ['correctcorrect', 'a word twice'],
    ['AdaQuill-2026', "the owner's name"],
    ['weirrating1!!', "the company's name"],
    ['Countercheck1!', "the service's name"],
  ])('refuse %s (%s)', (password) => {
    expect(passwordWeakness(password, own)).toBeTypeOf('string');
  });

  it.each([
    'seven lanterns over a quiet weir',
    'kN4!vz0pQ2#r',
    'welcome to the purple estuary',
    'überflußtönung-9k',
  ])('accept %s', (password) => {
    expect(passwordWeakness(password, own)).toBeUndefined();
  });
});
