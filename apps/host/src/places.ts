import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../..', import.meta.url)).replace(/[\\/]$/, '');

/** The database, its passwords and the log. Elsewhere than in the checkout for trials and for other disks. */
export const dataFolder = resolve(process.env['COUNTERCHECK_DATA'] ?? join(root, '.data'));
