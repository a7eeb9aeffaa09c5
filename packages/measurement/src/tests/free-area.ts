import { type EntryPart, optional, valuePath } from '../entry/part.ts';
import { type Checked, computed, problem } from '../outcome.ts';
import type { Step } from '../types.ts';
import { plainNumber } from '../units/round.ts';

/**
 * The free area of one opening, in²: as entered, or width × height for the gap under a door.
 * Exactly one of the two ways; width and height of a grille or duct are refused, because blades and bends
 * take a share that only its maker or a measurement of the free area tells.
 * Problems: `missing`, `entered-twice`, `gross-size`. Never throws. Formula: area of a rectangle.
 */
export function freeAreaOf(opening: EntryPart): Checked<{ area: number; step: Step }> {
  const area = optional(opening, 'freeArea');
  const width = optional(opening, 'width');
  const height = optional(opening, 'height');
  const label = `Free area of ${opening.label}`;
  if (area !== null && (width !== null || height !== null)) {
    return problem(
      valuePath(opening, 'freeArea'),
      'entered-twice',
      'Free area and size are both entered. Enter one of them.',
    );
  }
  if (area !== null) {
    return computed({
      area,
      step: { label, working: `${plainNumber(area)} in² as entered`, value: area, unit: 'in2' },
    });
  }
  if (opening.choices['kind'] !== 'door-undercut') {
    const code = width === null && height === null ? 'missing' : 'gross-size';
    const message = 'Enter the free area of a grille or duct, in²; its outer size says too much.';
    return problem(valuePath(opening, 'freeArea'), code, message);
  }
  if (width === null)
    return problem(valuePath(opening, 'width'), 'missing', 'The width of the gap is missing.');
  if (height === null)
    return problem(valuePath(opening, 'height'), 'missing', 'The height of the gap is missing.');
  const gap = width * height;
  const working = `${plainNumber(width)} in. × ${plainNumber(height)} in.`;
  return computed({ area: gap, step: { label, working, value: gap, unit: 'in2' } });
}
