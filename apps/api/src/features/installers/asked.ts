import { subjectsOf, type HouseFile } from '@countercheck/assessment';
import type { FiguresForm } from '@countercheck/contracts';
import type { QuantityKind } from '@countercheck/measurement';
import { reportedFigures, type ReportedFigure, type RuleSet } from '@countercheck/rules';

export type AskedSubject = FiguresForm['subjects'][number];

/** The most that can be meant, in the stored unit; beyond it a unit or a decimal point was mistaken. */
const most: Partial<Record<QuantityKind, number>> = { staticPressure: 5, airflow: 10_000, power: 5_000 };

const ofDucts = new Set(['supplyStatic', 'returnStatic', 'ductLeakageAt25']);

function exists(figure: ReportedFigure, subjectId: string, { house, systems }: AskedOf): boolean {
  if (figure.subject === 'system' && ofDucts.has(figure.key))
    return systems.find(({ id }) => id === subjectId)?.hasDucts ?? false;
  if (figure.subject === 'ventilator')
    return house.ventilationKind === 'balanced' || `${house.ventilationKind}Flow` === figure.key;
  return true;
}

/** What the rule set compares something with has to be reported; without it the item would wait for ever. */
function required(figure: ReportedFigure, set: RuleSet): boolean {
  return set.items.some(
    (item) => item.subject === figure.subject && JSON.stringify(item).includes(`"reported.${figure.key}"`),
  );
}

type AskedOf = Pick<HouseFile, 'house' | 'systems' | 'rooms' | 'appliances'>;

/** What the installer of a house is asked for: each part of the house with the figures that there are of it. */
export function askedFigures(file: AskedOf, set: RuleSet): AskedSubject[] {
  return subjectsOf(file).flatMap(({ id, kind, label }) => {
    const figures = reportedFigures
      .filter((figure) => figure.subject === kind && exists(figure, id, file))
      .map((figure) => ({
        name: figure.key,
        label: figure.label,
        quantity: figure.quantity,
        min: 0,
        max: most[figure.quantity] ?? 10_000,
        required: required(figure, set),
        help: figure.help,
      }));
    return figures.length > 0 ? [{ id, kind, label, figures }] : [];
  });
}
