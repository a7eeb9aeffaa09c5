import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quantities, type QuantityKind, type UnitSystem } from '../quantities.ts';
import { displayUnit, format, fromDisplay, toDisplay } from './display.ts';

const kinds = Object.keys(quantities) as QuantityKind[];

describe('format', () => {
  it.each<[QuantityKind, number, UnitSystem, string]>([
    ['staticPressure', 0.092, 'us', '0.092 in. w.c.'],
    ['staticPressure', 0.092, 'si', '22.9 Pa'],
    ['staticPressure', -0.11, 'us', '-0.110 in. w.c.'],
    ['pressureDifference', 2.45, 'us', '2.5 Pa'],
    ['airflow', 106, 'us', '106 cfm'],
    ['airflow', 106, 'si', '50.0 L/s'],
    ['floorArea', 2400, 'si', '223.0 m²'],
    ['volume', 19200, 'si', '543.7 m³'],
    ['openingArea', 50, 'si', '323 cm²'],
    ['length', 1, 'si', '25 mm'],
    ['height', 8.2, 'si', '2.50 m'],
    ['airChangeRate', 4.0625, 'us', '4.06 1/h'],
    ['leakagePerFloorArea', 5.125, 'us', '5.13 cfm per 100 ft²'],
    ['leakagePerFloorArea', 4, 'si', '2.03 L/s per 10 m²'],
    ['openingPerFlow', 0.54, 'si', '7.4 cm² per L/s'],
    ['concentration', 35, 'si', '35 ppm'],
    ['temperature', 71.6, 'si', '22.0 °C'],
    ['duration', 40, 'us', '40 s'],
    ['power', 540, 'us', '540 W'],
    ['share', 8, 'us', '8 %'],
    ['ratio', 0.6434488, 'us', '0.643'],
    ['count', 1, 'si', '1'],
  ])('%s %s in %s is "%s"', (kind, value, system, text) => {
    expect(format(kind, value, system)).toBe(text);
  });

  it('shows a dash for what is not a number and no minus on a zero', () => {
    expect(format('airflow', NaN, 'us')).toBe('—');
    expect(format('airflow', Infinity, 'si')).toBe('—');
    expect(format('airflow', -0.2, 'us')).toBe('0 cfm');
  });
});

describe('toDisplay and fromDisplay', () => {
  it('leave a value alone in the units it is stored in', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...kinds),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (kind, value) => {
          expect(toDisplay(kind, value, 'us')).toBe(value);
          expect(fromDisplay(kind, value, 'us')).toBe(value);
        },
      ),
    );
  });

  it('bring an entered decimal back exactly, in both systems', () => {
    fc.assert(
      fc.property(fc.constantFrom(...kinds), fc.integer({ min: -99999, max: 99999 }), (kind, thousandths) => {
        const entered = thousandths / 1000;
        expect(toDisplay(kind, fromDisplay(kind, entered, 'si'), 'si')).toBeCloseTo(entered, 7);
        expect(toDisplay(kind, fromDisplay(kind, entered, 'us'), 'us')).toBe(entered);
      }),
    );
  });

  it('carry no float noise into a form', () => {
    expect(toDisplay('length', 3, 'si')).toBe(76.2);
    expect(fromDisplay('length', 76.2, 'si')).toBe(3);
    expect(fromDisplay('temperature', 20, 'si')).toBe(68);
  });

  it('refuse what is not a number', () => {
    expect(() => toDisplay('airflow', NaN, 'us')).toThrow(RangeError);
    expect(() => fromDisplay('airflow', Infinity, 'si')).toThrow(RangeError);
  });
});

it('names the unit shown', () => {
  expect(displayUnit('airflow', 'us')).toBe('cfm');
  expect(displayUnit('airflow', 'si')).toBe('L/s');
});
