import type { InstrumentKind, RangeCalibration } from '@countercheck/measurement';

/** The invented company, its people and its customers. Nobody and nothing here is real. */
export const company = { name: 'Tern & Plover House Testing', timezone: 'US/Central' };

export const raters = [
  { email: 'rater@countercheck.example', name: 'Ines Quillfeather' },
  { email: 'rater2@countercheck.example', name: 'Tobiah Marrowfield' },
  { email: 'rater3@countercheck.example', name: 'Priyanka Ostholm' },
  { email: 'rater4@countercheck.example', name: 'Wendell Achterberg-Ruiz' },
  { email: 'rater5@countercheck.example', name: 'Salome Birchgrave' },
];

export interface DemoBuilder {
  name: string;
  phone: string;
  address: string;
  user: { email: string; name: string };
  contacts: { name: string; duty: string; email: string; phone: string }[];
  community: {
    name: string;
    jurisdiction: string;
    climateZone: string;
    latitude: number;
    longitude: number;
    streets: string[];
  };
  /** how much better (below 0) or worse its trades work than the usual, in spreads */
  workmanship: number;
}

export const builders: DemoBuilder[] = [
  {
    name: 'Oxbarrow Homes',
    phone: '555-0110',
    address: '4 Millrace Yard, Larkmoor',
    user: { email: 'builder@oxbarrow.example', name: 'Dunstan Peverill' },
    contacts: [
      {
        name: 'Dunstan Peverill',
        duty: 'Site manager',
        email: 'builder@oxbarrow.example',
        phone: '555-0111',
      },
      { name: 'Odalys Finch-Mbeki', duty: 'Warranty', email: 'warranty@oxbarrow.example', phone: '555-0112' },
    ],
    community: {
      name: 'Larkmoor Rise',
      jurisdiction: 'Larkmoor Township',
      climateZone: '5A',
      latitude: 41.02,
      longitude: -91.31,
      streets: ['Teasel Lane', 'Whinberry Court', 'Sparrowfold'],
    },
    workmanship: 0.1,
  },
  {
    name: 'Pellam Ridge Builders',
    phone: '555-0120',
    address: '17 Quarry Gate, Stannerton',
    user: { email: 'builder@pellamridge.example', name: 'Rosalind Okoro-Thwaite' },
    contacts: [
      {
        name: 'Rosalind Okoro-Thwaite',
        duty: 'Construction manager',
        email: 'builder@pellamridge.example',
        phone: '555-0121',
      },
    ],
    community: {
      name: 'Quarry Bend',
      jurisdiction: 'Stannerton',
      climateZone: '4A',
      latitude: 40.88,
      longitude: -91.12,
      streets: ['Flagstone Way', 'Hollin Close', 'Dressers Row'],
    },
    workmanship: -0.4,
  },
  {
    name: 'Hollowell & Tarn Construction',
    phone: '555-0130',
    address: '2 Weir Street, Tansy Fields',
    user: { email: 'builder@hollowelltarn.example', name: 'Ambrose Vantongeren' },
    contacts: [
      {
        name: 'Ambrose Vantongeren',
        duty: 'Owner',
        email: 'builder@hollowelltarn.example',
        phone: '555-0131',
      },
    ],
    community: {
      name: 'Tansy Fields',
      jurisdiction: 'Weir County',
      climateZone: '5A',
      latitude: 41.17,
      longitude: -91.48,
      streets: ['Yarrow Street', 'Comfrey Drive', 'Betony Path'],
    },
    workmanship: 0.6,
  },
];

export const installers = [
  {
    name: 'Casimir Doyle-Adeyemi',
    companyName: 'Northgable Air',
    trade: 'hvac-installer',
    email: 'casimir@northgable.example',
  },
  {
    name: 'Thessaly Brandvold',
    companyName: 'Northgable Air',
    trade: 'hvac-installer',
    email: 'thessaly@northgable.example',
  },
  {
    name: 'Ignatius Pell',
    companyName: 'Coldwick Mechanical',
    trade: 'hvac-installer',
    email: 'ignatius@coldwick.example',
  },
  {
    name: 'Beatrix Olanrewaju',
    companyName: 'Coldwick Mechanical',
    trade: 'hvac-installer',
    email: 'beatrix@coldwick.example',
  },
  {
    name: 'Florian Skeggs',
    companyName: 'Coldwick Mechanical',
    trade: 'hvac-installer',
    email: 'florian@coldwick.example',
  },
  {
    name: 'Marigold Huang-Tate',
    companyName: 'Damper & Daughters',
    trade: 'hvac-installer',
    email: 'marigold@damper.example',
  },
  {
    name: 'Osric Lindqvist-Bao',
    companyName: 'Damper & Daughters',
    trade: 'hvac-installer',
    email: 'osric@damper.example',
  },
  {
    name: 'Perpetua Gale',
    companyName: 'Gale Electric',
    trade: 'electrician',
    email: 'perpetua@galeelectric.example',
  },
];

export interface KitInstrument {
  kind: InstrumentKind;
  word: string;
  accuracyPercent: number;
  accuracyAbsolute: number;
  resolution: number;
  ranges: FanRange[];
}

/** A range that is calibrated by coefficients. */
export type FanRange = RangeCalibration & { c: number; n: number };

const fan = (rows: [string, number, number][], n: number, minPa: number, maxPa: number): FanRange[] =>
  rows.map(([range, c]) => ({ range, c, n, minPa, maxPa }));

/** What each rater carries; coefficients of invented fans of usual size. */
export const kit: KitInstrument[] = [
  {
    kind: 'manometer',
    word: 'Manometer',
    accuracyPercent: 1,
    accuracyAbsolute: 0.15,
    resolution: 0.1,
    ranges: [],
  },
  {
    kind: 'blower-door',
    word: 'Blower door',
    accuracyPercent: 4,
    accuracyAbsolute: 1,
    resolution: 1,
    ranges: fan(
      [
        ['Open', 470, 0],
        ['Plate 1', 178, 0],
        ['Plate 2', 62, 0],
        ['Plate 3', 21, 0],
      ],
      0.495,
      20,
      350,
    ),
  },
  {
    kind: 'duct-tester',
    word: 'Duct tester',
    accuracyPercent: 3,
    accuracyAbsolute: 1,
    resolution: 0.1,
    ranges: fan(
      [
        ['Open', 105, 0],
        ['Plate 1', 40.5, 0],
        ['Plate 2', 15.2, 0],
        ['Plate 3', 5.6, 0],
      ],
      0.5,
      20,
      300,
    ),
  },
  {
    kind: 'exhaust-flow-meter',
    word: 'Exhaust flow meter',
    accuracyPercent: 5,
    accuracyAbsolute: 2,
    resolution: 1,
    ranges: [],
  },
  {
    kind: 'powered-flow-hood',
    word: 'Powered flow hood',
    accuracyPercent: 5,
    accuracyAbsolute: 2,
    resolution: 1,
    ranges: [],
  },
  {
    kind: 'ambient-co-monitor',
    word: 'CO monitor',
    accuracyPercent: 5,
    accuracyAbsolute: 2,
    resolution: 1,
    ranges: [],
  },
  {
    kind: 'combustion-analyzer',
    word: 'Combustion analyzer',
    accuracyPercent: 5,
    accuracyAbsolute: 5,
    resolution: 1,
    ranges: [],
  },
];
