import sharp from 'sharp';

// Which bars of a seven-bar digit are lit; bars rather than letters, since a server may have no fonts.
const lit: Record<string, string> = {
  '0': 'abcdef',
  '1': 'bc',
  '2': 'abged',
  '3': 'abgcd',
  '4': 'fgbc',
  '5': 'afgcd',
  '6': 'afgedc',
  '7': 'abc',
  '8': 'abcdefg',
  '9': 'abcdfg',
  '-': 'g',
};
const bars: Record<string, string> = {
  a: 'M6 0h28l-6 7h-16z',
  b: 'M40 6v26l-7-5v-16z',
  c: 'M40 40v26l-7-5v-16z',
  d: 'M6 72h28l-6-7h-16z',
  e: 'M0 40v26l7-5v-16z',
  f: 'M0 6v26l7-5v-16z',
  g: 'M6 36l5-4h18l5 4-5 4h-18z',
};

/** How a photo was taken: no hand holds a camera twice alike. Turn in degrees, moves in pixels, light in degrees. */
export interface Hold {
  turn: number;
  right: number;
  down: number;
  near: number;
  light: number;
}
const still: Hold = { turn: 0, right: 0, down: 0, near: 1, light: 90 };

/** A photo of an instrument's display, drawn: a case on a bench, the figure in bars, a tube to it. */
export async function displayPhoto(figure: string, hue: number, hold: Hold = still): Promise<Buffer> {
  const { turn, right, down, near, light } = hold;
  let x = 0;
  const digits = [...figure].map((character) => {
    if (character === '.') return `<circle cx="${x - 4}" cy="70" r="5"/>`;
    const drawn = [...(lit[character] ?? '')].map((bar) => `<path d="${bars[bar] ?? ''}"/>`).join('');
    const group = `<g transform="translate(${x} 0)">${drawn}</g>`;
    x += 54;
    return group;
  });
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="960" height="720" viewBox="0 0 960 720">
    <defs><linearGradient id="w" x2="0" y2="1" gradientTransform="rotate(${light - 90} .5 .5)"><stop stop-color="hsl(${hue} 18% 72%)"/><stop offset="1" stop-color="hsl(${hue} 14% 46%)"/></linearGradient></defs>
    <rect width="960" height="720" fill="url(#w)"/><rect y="520" width="960" height="200" fill="hsl(${(hue + 30) % 360} 22% 34%)"/>
    <g transform="translate(${480 + right} ${360 + down}) rotate(${turn}) scale(${near}) translate(-480 -360)">
    <path d="M250 560C120 620 60 500 0 540" stroke="#d7dde2" stroke-width="22" fill="none" opacity=".8"/>
    <rect x="230" y="150" width="500" height="430" rx="36" fill="#20262c"/><rect x="270" y="200" width="420" height="190" rx="12" fill="#c9d6c2"/>
    <g transform="translate(${690 - 30 - x * 1.5} 235) scale(1.5)" fill="#1b241c">${digits.join('')}</g>
    ${[0, 1, 2, 3].map((i) => `<circle cx="${320 + i * 106}" cy="480" r="34" fill="#39434c"/>`).join('')}</g></svg>`;
  return sharp(Buffer.from(svg)).jpeg({ quality: 72 }).toBuffer();
}
