import { turnSign } from '../../../components/reading-form/index.ts';

export type PadKey = '0' | '1' | '2' | '3' | '4' | '5' | '6' | '7' | '8' | '9' | '.' | 'sign' | 'back';

/** No reading is longer. */
const longest = 15;

/** The text after a key of the pad: a second point, or a digit too many, changes nothing. */
export function press(text: string, key: PadKey): string {
  if (key === 'back') return text.slice(0, -1);
  if (key === 'sign') return turnSign({ text, system: 'us' }).text;
  if (text.length >= longest) return text;
  if (key === '.') return /[.,]/.test(text) ? text : /\d$/.test(text) ? `${text}.` : `${text}0.`;
  return text === '0' || text === '-0' ? text.slice(0, -1) + key : text + key;
}
