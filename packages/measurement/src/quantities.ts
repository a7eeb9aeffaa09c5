/**
 * The one unit in which every quantity is stored, computed and spoken by the API, and the unit a page
 * shows in each system. Stored units are those the trade writes on its forms, so that an entered decimal
 * survives unchanged.
 */
export const quantities = {
  staticPressure: { unit: 'inH2O', us: { label: 'in. w.c.', decimals: 3 }, si: { label: 'Pa', decimals: 1 } },
  pressureDifference: { unit: 'Pa', us: { label: 'Pa', decimals: 1 }, si: { label: 'Pa', decimals: 1 } },
  airflow: { unit: 'cfm', us: { label: 'cfm', decimals: 0 }, si: { label: 'L/s', decimals: 1 } },
  floorArea: { unit: 'ft2', us: { label: 'ft²', decimals: 0 }, si: { label: 'm²', decimals: 1 } },
  volume: { unit: 'ft3', us: { label: 'ft³', decimals: 0 }, si: { label: 'm³', decimals: 1 } },
  openingArea: { unit: 'in2', us: { label: 'in²', decimals: 0 }, si: { label: 'cm²', decimals: 0 } },
  length: { unit: 'in', us: { label: 'in.', decimals: 2 }, si: { label: 'mm', decimals: 0 } },
  height: { unit: 'ft', us: { label: 'ft', decimals: 1 }, si: { label: 'm', decimals: 2 } },
  airChangeRate: { unit: '1/h', us: { label: '1/h', decimals: 2 }, si: { label: '1/h', decimals: 2 } },
  leakagePerFloorArea: {
    unit: 'cfm/100ft2',
    us: { label: 'cfm per 100 ft²', decimals: 2 },
    si: { label: 'L/s per 10 m²', decimals: 2 },
  },
  openingPerFlow: {
    unit: 'in2/cfm',
    us: { label: 'in² per cfm', decimals: 2 },
    si: { label: 'cm² per L/s', decimals: 1 },
  },
  concentration: { unit: 'ppm', us: { label: 'ppm', decimals: 0 }, si: { label: 'ppm', decimals: 0 } },
  temperature: { unit: 'degF', us: { label: '°F', decimals: 0 }, si: { label: '°C', decimals: 1 } },
  duration: { unit: 's', us: { label: 's', decimals: 0 }, si: { label: 's', decimals: 0 } },
  power: { unit: 'W', us: { label: 'W', decimals: 0 }, si: { label: 'W', decimals: 0 } },
  airDensity: { unit: 'kg/m3', us: { label: 'kg/m³', decimals: 4 }, si: { label: 'kg/m³', decimals: 4 } },
  massFlow: { unit: 'kg/s', us: { label: 'kg/s', decimals: 4 }, si: { label: 'kg/s', decimals: 4 } },
  share: { unit: '%', us: { label: '%', decimals: 0 }, si: { label: '%', decimals: 0 } },
  ratio: { unit: '1', us: { label: '', decimals: 3 }, si: { label: '', decimals: 3 } },
  count: { unit: '1', us: { label: '', decimals: 0 }, si: { label: '', decimals: 0 } },
} as const;

export type QuantityKind = keyof typeof quantities;
export type Unit = (typeof quantities)[QuantityKind]['unit'];
export type UnitSystem = 'us' | 'si';
