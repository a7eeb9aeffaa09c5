import { builders, houses, instruments } from '@countercheck/contracts';
import { describe, expect, it } from 'vitest';
import { errorsOf } from './errors-of.ts';

describe('what a contract says about a form', () => {
  it('names every field to correct in plain words', () => {
    const errors = errorsOf(houses.register.body, {
      communityId: null,
      address: '',
      lot: '12',
      climateZone: null,
      conditionedFloorArea: Number.NaN,
      conditionedVolume: null,
      bedrooms: 3,
      storeys: 1,
      foundation: 'slab',
      ventilationKind: 'none',
      parts: { systems: [{ label: '', kind: 'Heat pump' }], rooms: [], appliances: [] },
    });
    expect(errors).toMatchObject({
      communityId: 'Please fill this in',
      address: 'Please fill this in',
      conditionedFloorArea: 'Enter a number',
      'parts.systems.0.label': 'Please fill this in',
    });
    for (const words of Object.values(errors)) expect(words).not.toMatch(/invalid|expected|undefined/i);
  });
  it('is silent when everything can be sent', () => {
    expect(
      errorsOf(builders.register.body, { name: 'North Row', phone: '', address: null, note: '' }),
    ).toEqual({});
  });
  it('tells the bound that a number misses', () => {
    const errors = errorsOf(instruments.register.body, {
      kind: 'manometer',
      label: 'A',
      serial: '1',
      accuracyPercent: 60,
      accuracyAbsolute: 0,
    });
    expect(errors.accuracyPercent).toBe('At most 50');
  });
});
