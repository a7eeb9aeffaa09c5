import type { DemoPlan } from '../plans.ts';

const cottage = (
  name: string,
  area: number,
  height: number,
  foundation: DemoPlan['foundation'],
  designedVentilation: number,
  flows: [number, number],
): DemoPlan => ({
  name,
  conditionedFloorArea: area,
  conditionedVolume: area * height,
  bedrooms: 2,
  storeys: 1,
  foundation,
  ventilationKind: 'exhaust',
  ventilatorDucted: false,
  designedVentilation,
  parts: {
    systems: [
      {
        label: 'System 1',
        kind: 'Heat pump',
        hasDucts: true,
        ductsInside: true,
        designAirflow: Math.round(area * 0.6),
      },
    ],
    rooms: [
      { label: 'Main bedroom', kind: 'bedroom', supplyFlow: flows[0], volume: null },
      { label: 'Bedroom 2', kind: 'bedroom', supplyFlow: flows[1], volume: null },
      { label: 'Main bath', kind: 'bath', supplyFlow: null, volume: null },
      { label: 'Kitchen', kind: 'kitchen', supplyFlow: null, volume: 1150 },
    ],
    appliances: [
      { label: 'Water heater', kind: 'water-heater', fuel: 'electric', venting: 'none', location: 'Closet' },
    ],
  },
});

/** The small house that each builder built most of in the past year, in the order of the cast. */
export const cottages: DemoPlan[] = [
  cottage('Stonechat', 1180, 8.5, 'slab', 50, [105, 80]),
  cottage('Plan S', 1260, 9, 'crawlspace', 55, [110, 85]),
  cottage('Nook', 1090, 8, 'slab', 45, [95, 75]),
];
