import { spawn } from 'node:child_process';
import { accessSync, constants, existsSync, readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { Trouble } from './trouble.mjs';

/**
 * @param {string} file
 * @returns {Record<string, { version?: string, link?: boolean, optional?: boolean, devOptional?: boolean, peer?: boolean }>}
 */
const packagesIn = (file) => JSON.parse(readFileSync(file, 'utf8')).packages;

/**
 * npm writes down what it installed when it is done. Comparing that with the lockfile also notices an install
 * that was cut short, or one done by hand, without a record of our own.
 * @param {string} root
 */
export function isInstalled(root) {
  const record = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(record)) return false;
  const installed = packagesIn(record);
  return Object.entries(packagesIn(join(root, 'package-lock.json'))).every(([path, wanted]) => {
    if (!path.includes('node_modules/') || wanted.link || wanted.optional || wanted.devOptional) return true;
    return installed[path]?.version === wanted.version;
  });
}

/** @param {string} path */
function writable(path) {
  let folder = path;
  while (!existsSync(folder) && dirname(folder) !== folder) folder = dirname(folder);
  try {
    accessSync(folder, constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

/** @param {string} root */
function environment(root) {
  const cache = process.env['npm_config_cache'] ?? join(homedir(), '.npm');
  return {
    ...process.env,
    // Countercheck migrates without the native engine; naming any program keeps the tool from fetching one.
    PRISMA_SCHEMA_ENGINE_BINARY: '/bin/true',
    ...(writable(cache) ? {} : { npm_config_cache: join(root, '.data', 'npm-cache') }),
  };
}

/**
 * @param {string} root
 * @param {AbortSignal} [signal]
 * @returns {Promise<void>}
 */
export async function install(root, signal) {
  const args = ['ci', '--include=dev', '--include=optional', '--no-audit', '--no-fund', '--loglevel=error'];
  const throughNpm = process.env['npm_execpath'];
  const command =
    throughNpm?.endsWith('npm-cli.js') === true
      ? { file: process.execPath, args: [throughNpm, ...args] }
      : { file: process.platform === 'win32' ? 'npm.cmd' : 'npm', args };
  const { code, output } = await new Promise((resolve) => {
    const child = spawn(command.file, command.args, {
      cwd: root,
      env: environment(root),
      stdio: ['ignore', 'pipe', 'pipe'],
      signal,
      shell: process.platform === 'win32' && command.file !== process.execPath,
    });
    let text = '';
    child.stdout.on('data', (chunk) => (text += chunk));
    child.stderr.on('data', (chunk) => (text += chunk));
    child.on('error', (error) => resolve({ code: 1, output: error.message }));
    child.on('close', (status) => resolve({ code: status ?? 1, output: text }));
  });
  if (code === 0) return;
  throw new Trouble(
    `${output.trim()}\nThe dependencies could not be installed (npm ci ended with ${code}). Check the connection to the package registry and start again.`,
  );
}
