import { type Checked, problem } from '../outcome.ts';
import { plainNumber } from '../units/round.ts';
import { type FigureSource, seen } from '../working/figure-source.ts';
import { aboveZero, firstProblem, oneOf, statedUncertainties, type Uncertainties } from '../working/input.ts';
import { combined, gaveWorked, type WorkingLine, type Worked, worked } from '../working/worked.ts';

const secondaryPage = seen(
  'IRC M1505 and ASHRAE 62.2 as on a secondary page, https://constructioninstruction.com/term/ashrae-62-2/',
);
const kitchenAirChanges = seen(
  'ASHRAE 62.2, Tables 5.1 and 5.2, as at a fan maker’s page (address withheld)',
);

/** Least exhaust of a room, cfm: on demand, and all the time as the alternative. */
export const localExhaustFigures = {
  bath: { onDemand: 50, continuous: 20, source: secondaryPage },
  kitchen: { onDemand: 100, continuous: 25, source: secondaryPage },
  /** the continuous kitchen exhaust of 62.2, air changes per hour of the kitchen's own volume */
  kitchenAirChanges: { continuous: 5, source: kitchenAirChanges },
} as const;

export interface ExhaustCase {
  room: 'kitchen' | 'bath';
  mode: 'on-demand' | 'continuous';
  /** which text a continuous kitchen is judged by: 25 cfm (`irc`) or 5 air changes per hour (`62.2`) */
  basis?: 'irc' | '62.2';
  /** volume of the kitchen, ft³; needed for a continuous kitchen by 62.2 only */
  volume?: number;
  uncertainties?: Uncertainties<'volume'>;
}

export interface LeastExhaust extends Worked<'cfm'> {
  source: FigureSource;
}

/**
 * The least exhaust of a kitchen or bath, cfm. Kitchen: 100 on demand; all the time 25 (IRC, the default) or 5 air
 * changes per hour (62.2): 5 · V / 60. Bath: 50 on demand or 20 all the time.
 * Problems: `unknown-choice`, `missing` (no volume given for the air changes), `not-above-zero`,
 * `bad-uncertainty`. Never throws. Source: see `localExhaustFigures`, named in the result.
 */
export function leastExhaust(exhaust: ExhaustCase): Checked<LeastExhaust> {
  const { room, mode, basis = 'irc', volume, uncertainties } = exhaust;
  const wrong = firstProblem(
    oneOf('room', 'The room', room, ['kitchen', 'bath']),
    oneOf('mode', 'The way the fan runs', mode, ['on-demand', 'continuous']),
    oneOf('basis', 'The text that a continuous kitchen is judged by', basis, ['irc', '62.2']),
    statedUncertainties(uncertainties),
  );
  if (wrong) return wrong;
  if (room === 'kitchen' && mode === 'continuous' && basis === '62.2') {
    if (volume === undefined) {
      return problem('volume', 'missing', 'Five air changes an hour need the volume of the kitchen in ft³.');
    }
    const bad = firstProblem(aboveZero('volume', 'The volume of the kitchen', volume, 'ft³'));
    return bad ?? byAirChanges(volume, combined([[5 / 60, uncertainties?.volume]]));
  }
  const figures = localExhaustFigures[room];
  const value = mode === 'continuous' ? figures.continuous : figures.onDemand;
  return outcome(value, 0, `${room}, ${mode}`, figures.source);
}

function byAirChanges(volume: number, u: number | null): Checked<LeastExhaust> {
  const { continuous, source } = localExhaustFigures.kitchenAirChanges;
  return outcome((continuous * volume) / 60, u, `${continuous} × ${plainNumber(volume)} / 60`, source);
}

function outcome(value: number, u: number | null, working: string, source: FigureSource) {
  const step: WorkingLine = { label: 'Least exhaust', working, value, unit: 'cfm' };
  return gaveWorked(worked('cfm', value, u, [step]), { source });
}
