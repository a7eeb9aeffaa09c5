import { later } from '../../../lib/later.ts';

/** The verdict while somebody types: the rules weigh more than the form, and nobody waits for them to begin. */
export const laterPreview = later(() => import('./preview.ts'));
