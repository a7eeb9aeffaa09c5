/** Plans of the demo builders. Areas in ft², volumes in ft³, airflows in cfm. */
export interface DemoPlan {
  name: string;
  conditionedFloorArea: number;
  conditionedVolume: number;
  bedrooms: number;
  storeys: number;
  foundation: 'slab' | 'crawlspace' | 'basement';
  ventilationKind: 'exhaust' | 'balanced';
  ventilatorDucted: boolean;
  designedVentilation: number;
  parts: {
    systems: {
      label: string;
      kind: string;
      hasDucts: boolean;
      ductsInside: boolean;
      designAirflow: number;
    }[];
    rooms: {
      label: string;
      kind: 'bedroom' | 'bath' | 'kitchen';
      supplyFlow: number | null;
      volume: number | null;
    }[];
    appliances: { label: string; kind: string; fuel: string; venting: string; location: string | null }[];
  };
}

const bedrooms = (flows: number[]) =>
  flows.map((supplyFlow, i) => ({
    label: i === 0 ? 'Main bedroom' : `Bedroom ${i + 1}`,
    kind: 'bedroom' as const,
    supplyFlow,
    volume: null,
  }));
const baths = (names: string[]) =>
  names.map((label) => ({ label, kind: 'bath' as const, supplyFlow: null, volume: null }));
const kitchen = { label: 'Kitchen', kind: 'kitchen' as const, supplyFlow: null, volume: 1300 };
const sealedFurnace = {
  label: 'Furnace',
  kind: 'furnace',
  fuel: 'natural-gas',
  venting: 'direct-vent',
  location: 'Basement',
};
const heatPumpTank = {
  label: 'Water heater',
  kind: 'water-heater',
  fuel: 'electric',
  venting: 'none',
  location: 'Garage',
};
const draftTank = {
  label: 'Water heater',
  kind: 'water-heater',
  fuel: 'natural-gas',
  venting: 'atmospheric',
  location: 'Basement',
};
const oven = { label: 'Cooker', kind: 'range', fuel: 'electric', venting: 'none', location: 'Kitchen' };

/** Plans by builder, in the order of the cast. */
export const plans: DemoPlan[][] = [
  [
    {
      name: 'Wren',
      conditionedFloorArea: 1640,
      conditionedVolume: 13940,
      bedrooms: 3,
      storeys: 1,
      foundation: 'slab',
      ventilationKind: 'exhaust',
      ventilatorDucted: false,
      designedVentilation: 60,
      parts: {
        systems: [
          { label: 'System 1', kind: 'Heat pump', hasDucts: true, ductsInside: true, designAirflow: 900 },
        ],
        rooms: [...bedrooms([120, 85, 80]), ...baths(['Main bath', 'Hall bath']), kitchen],
        appliances: [heatPumpTank, oven],
      },
    },
    {
      name: 'Curlew',
      conditionedFloorArea: 2860,
      conditionedVolume: 25740,
      bedrooms: 4,
      storeys: 2,
      foundation: 'basement',
      ventilationKind: 'balanced',
      ventilatorDucted: true,
      designedVentilation: 110,
      parts: {
        systems: [
          {
            label: 'Ground floor',
            kind: 'Gas furnace with cooling',
            hasDucts: true,
            ductsInside: true,
            designAirflow: 1000,
          },
          { label: 'Upper floor', kind: 'Heat pump', hasDucts: true, ductsInside: false, designAirflow: 800 },
        ],
        rooms: [...bedrooms([140, 95, 90, 85]), ...baths(['Main bath', 'Hall bath', 'Powder room']), kitchen],
        appliances: [sealedFurnace, heatPumpTank, oven],
      },
    },
  ],
  [
    {
      name: 'Plan A',
      conditionedFloorArea: 2140,
      conditionedVolume: 18190,
      bedrooms: 3,
      storeys: 1.5,
      foundation: 'crawlspace',
      ventilationKind: 'balanced',
      ventilatorDucted: true,
      designedVentilation: 90,
      parts: {
        systems: [
          { label: 'System 1', kind: 'Heat pump', hasDucts: true, ductsInside: false, designAirflow: 1150 },
        ],
        rooms: [...bedrooms([130, 90, 90]), ...baths(['Main bath', 'Hall bath']), kitchen],
        appliances: [heatPumpTank, oven],
      },
    },
    {
      name: 'Plan B',
      conditionedFloorArea: 3420,
      conditionedVolume: 30780,
      bedrooms: 5,
      storeys: 2,
      foundation: 'basement',
      ventilationKind: 'balanced',
      ventilatorDucted: true,
      designedVentilation: 150,
      parts: {
        systems: [
          {
            label: 'System 1',
            kind: 'Gas furnace with cooling',
            hasDucts: true,
            ductsInside: true,
            designAirflow: 1200,
          },
          { label: 'System 2', kind: 'Heat pump', hasDucts: true, ductsInside: false, designAirflow: 900 },
        ],
        rooms: [
          ...bedrooms([150, 95, 95, 90, 85]),
          ...baths(['Main bath', 'Hall bath', 'Guest bath']),
          kitchen,
        ],
        appliances: [sealedFurnace, { ...draftTank, label: 'Water heater' }, oven],
      },
    },
  ],
  [
    {
      name: 'Cottage',
      conditionedFloorArea: 1000,
      conditionedVolume: 8200,
      bedrooms: 2,
      storeys: 1,
      foundation: 'slab',
      ventilationKind: 'exhaust',
      ventilatorDucted: false,
      designedVentilation: 45,
      parts: {
        systems: [
          { label: 'System 1', kind: 'Heat pump', hasDucts: true, ductsInside: true, designAirflow: 650 },
        ],
        rooms: [...bedrooms([95, 80]), ...baths(['Bath']), kitchen],
        appliances: [heatPumpTank, oven],
      },
    },
    {
      name: 'Farmhouse',
      conditionedFloorArea: 4000,
      conditionedVolume: 36000,
      bedrooms: 4,
      storeys: 2,
      foundation: 'basement',
      ventilationKind: 'balanced',
      ventilatorDucted: true,
      designedVentilation: 140,
      parts: {
        systems: [
          {
            label: 'System 1',
            kind: 'Gas furnace with cooling',
            hasDucts: true,
            ductsInside: true,
            designAirflow: 1600,
          },
        ],
        rooms: [
          ...bedrooms([160, 110, 100, 95]),
          ...baths(['Main bath', 'Hall bath', 'Powder room']),
          kitchen,
        ],
        appliances: [
          sealedFurnace,
          {
            label: 'Fireplace',
            kind: 'fireplace',
            fuel: 'natural-gas',
            venting: 'direct-vent',
            location: 'Living room',
          },
          heatPumpTank,
          oven,
        ],
      },
    },
  ],
];
