import type { CodeFigure } from './code-figure.ts';
import { ductFigures } from './duct-figures.ts';
import { envelopeFigures } from './envelope-figures.ts';

/** The published limits by edition and zone. Where a text was not seen, `confirmed` is false. */
export const energyCodeFigures: readonly CodeFigure[] = [...envelopeFigures, ...ductFigures];
