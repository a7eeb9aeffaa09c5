import { spawnSync } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { temporaryFolder } from './temporary.ts';

export interface Chromium {
  executable: string;
  env: Record<string, string>;
}

const runs = ({ executable, env }: Chromium) =>
  spawnSync(executable, ['--version'], { env: { ...process.env, ...env }, timeout: 30_000 }).status === 0;

/** The packaged settings look for letters in one fixed folder; pages without letters would pass any test of their layout. */
function writeFontSettings(folder: string): void {
  const folders = [join(folder, 'fonts'), '/usr/share/fonts', '/usr/local/share/fonts'];
  const list = folders.map((each) => `<dir>${each}</dir>`).join('');
  const settings = `<fontconfig>${list}<cachedir>${join(folder, 'fonts-cache')}</cachedir></fontconfig>`;
  writeFileSync(join(folder, 'fonts', 'fonts.conf'), `<?xml version="1.0"?>\n${settings}\n`);
}

/** The packaged browser unpacks wherever the temporary folder is; each run gets its own, so accounts never meet. */
async function unpack(folder: string): Promise<Chromium[]> {
  if (process.platform !== 'linux' || process.arch !== 'x64') return [];
  const before = {
    TMPDIR: process.env['TMPDIR'],
    AWS_LAMBDA_JS_RUNTIME: process.env['AWS_LAMBDA_JS_RUNTIME'],
  };
  try {
    // Named so, the package also unpacks the system libraries that a bare machine lacks.
    Object.assign(process.env, { TMPDIR: folder, AWS_LAMBDA_JS_RUNTIME: 'nodejs20.x' });
    const { default: packaged } = await import('@sparticuz/chromium');
    const executable = await packaged.executablePath();
    writeFontSettings(folder);
    const fonts = { FONTCONFIG_PATH: join(folder, 'fonts') };
    return [
      { executable, env: fonts },
      { executable, env: { ...fonts, LD_LIBRARY_PATH: join(folder, 'al2023', 'lib') } },
    ];
  } finally {
    for (const [name, value] of Object.entries(before)) {
      if (value === undefined) delete process.env[name];
      else process.env[name] = value;
    }
    delete process.env['LD_LIBRARY_PATH'];
    delete process.env['FONTCONFIG_PATH'];
  }
}

function installed(): Chromium[] {
  const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
  return (process.env['PATH'] ?? '')
    .split(':')
    .flatMap((folder) => names.map((name) => join(folder, name)))
    .filter((file) => existsSync(file))
    .map((executable) => ({ executable, env: {} }));
}

/** A browser that really starts on this machine. Without one the tests fail: skipped they would prove nothing. */
export async function findChromium(): Promise<{ chromium: Chromium; folder: string }> {
  const folder = temporaryFolder('browser');
  const named = process.env['CHROMIUM_PATH'];
  const candidates = named ? [{ executable: named, env: {} }] : [...(await unpack(folder)), ...installed()];
  const chromium = candidates.find(runs);
  if (chromium) return { chromium, folder };
  throw new Error(
    'No Chromium starts on this machine; install one (apt-get install chromium) or set CHROMIUM_PATH.',
  );
}
