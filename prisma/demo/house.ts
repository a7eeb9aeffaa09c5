import type { HouseFile } from '@countercheck/assessment';
import type { DemoPlan } from './plans.ts';
import type { Random } from './random.ts';
import type { ReportedFigures } from './physics/reported.ts';

/** A house of the demo with the ids of its parts. */
export interface DemoHouse {
  id: string;
  plan: DemoPlan;
  systems: (DemoPlan['parts']['systems'][number] & { id: string })[];
  rooms: (DemoPlan['parts']['rooms'][number] & { id: string })[];
  appliances: (DemoPlan['parts']['appliances'][number] & { id: string })[];
  climateZone: string;
}

export function newHouse(plan: DemoPlan, climateZone: string, random: Random): DemoHouse {
  const withId = <T>(part: T) => ({ ...part, id: random.uuid() });
  const { systems, rooms, appliances } = plan.parts;
  return {
    id: random.uuid(),
    plan,
    climateZone,
    systems: systems.map(withId),
    rooms: rooms.map(withId),
    appliances: appliances.map(withId),
  };
}

/** The installer's figures by subject id. */
export function bySubject(
  house: DemoHouse,
  figures: ReportedFigures,
): Record<string, Record<string, number>> {
  const reported: Record<string, Record<string, number>> = {
    ventilator:
      house.plan.ventilationKind === 'balanced'
        ? figures.ventilator
        : { exhaustFlow: figures.ventilator['exhaustFlow'] ?? 0 },
  };
  const assign = (parts: { id: string }[], rows: Record<string, number>[]) =>
    parts.forEach(({ id }, i) => (reported[id] = rows[i] ?? {}));
  assign(house.systems, figures.systems);
  assign(
    house.rooms.filter(({ kind }) => kind === 'bedroom'),
    figures.bedrooms,
  );
  assign(
    house.rooms.filter(({ kind }) => kind === 'bath'),
    figures.baths,
  );
  assign(
    house.rooms.filter(({ kind }) => kind === 'kitchen'),
    [figures.kitchen],
  );
  return reported;
}

/** Which of its kind a subject is. */
export function subjectIndex(house: DemoHouse, subjectId: string): number {
  const kinds = [
    house.systems,
    ...(['bedroom', 'bath', 'kitchen'] as const).map((kind) =>
      house.rooms.filter((room) => room.kind === kind),
    ),
    house.appliances,
  ];
  for (const parts of kinds) {
    const index = parts.findIndex(({ id }) => id === subjectId);
    if (index >= 0) return index;
  }
  return 0;
}

export function fileOf(
  house: DemoHouse,
  reported: Record<string, Record<string, number>>,
  readings: HouseFile['readings'],
): HouseFile {
  const { plan } = house;
  return {
    house: {
      conditionedFloorAreaFt2: plan.conditionedFloorArea,
      conditionedVolumeFt3: plan.conditionedVolume,
      bedrooms: plan.bedrooms,
      storeys: plan.storeys,
      climateZone: house.climateZone,
      foundation: plan.foundation,
      ventilationKind: plan.ventilationKind,
      ventilatorDucted: plan.ventilatorDucted,
      designedVentilationCfm: plan.designedVentilation,
    },
    systems: house.systems.map(({ id, label, hasDucts, ductsInside, designAirflow }) => ({
      id,
      label,
      hasDucts,
      ductsInside,
      designAirflowCfm: designAirflow,
    })),
    rooms: house.rooms.map(({ id, label, kind, supplyFlow, volume }) => ({
      id,
      label,
      kind,
      supplyFlowCfm: supplyFlow,
      volumeFt3: volume,
    })),
    appliances: house.appliances.map(
      ({ id, label, kind, fuel, venting }) =>
        ({ id, label, kind, fuel, venting }) as HouseFile['appliances'][number],
    ),
    reported,
    hidden: [],
    readings,
  };
}
