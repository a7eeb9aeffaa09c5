import { Checkbox } from '@mantine/core';
import { climateZones } from '@countercheck/contracts';
import type { HouseFile } from '@countercheck/assessment';
import { testOutlines, type TestKey } from '@countercheck/measurement';
import { Choice, optionsOf, QuantityInput } from '../../components/fields/index.ts';
import { applianceWords, fuelWords, ventilationWords, ventingWords } from '../../lib/words/house.ts';
import { combustion, type HouseFacts } from './state.ts';

const zones = climateZones.map((zone) => ({ value: zone, label: zone }));
type Appliance = HouseFile['appliances'][number];

/** Which facts a test's limits may ask for. */
function asks(test: TestKey) {
  const ducts = test.startsWith('duct-leakage');
  return {
    envelope: test === 'envelope-leakage',
    area: ducts || test === 'ventilator-duct-leakage' || test === 'envelope-leakage',
    ducts,
    ventilation: testOutlines[test].subject === 'ventilator' && test !== 'ventilator-duct-leakage',
    appliance: combustion.includes(test),
  };
}

export const asksFacts = (test: TestKey) => Object.values(asks(test)).some(Boolean);

interface Props {
  test: TestKey;
  facts: HouseFacts;
  onChange(facts: HouseFacts): void;
}

/** What the limits of one test ask of a house, and no more. */
export function FactsFields({ test, facts, onChange }: Props) {
  const asked = asks(test);
  const set = (changes: Partial<HouseFacts>) => onChange({ ...facts, ...changes });
  return (
    <div className="fields">
      {asked.area && (
        <QuantityInput
          kind="floorArea"
          label="Conditioned floor area"
          value={facts.floorArea}
          onChange={(floorArea) => set({ floorArea })}
        />
      )}
      {asked.envelope && (
        <>
          <QuantityInput
            kind="volume"
            label="Conditioned volume"
            value={facts.volume}
            onChange={(volume) => set({ volume })}
          />
          <Choice
            label="Climate zone"
            options={zones}
            value={facts.climateZone}
            onChange={(zone) => set({ climateZone: zone ?? facts.climateZone })}
          />
        </>
      )}
      {asked.ventilation && (
        <>
          <Choice
            label="Ventilation"
            options={optionsOf(ventilationWords).filter(({ value }) => value !== 'none')}
            value={facts.ventilationKind}
            onChange={(kind) => set({ ventilationKind: kind as HouseFacts['ventilationKind'] })}
          />
          <QuantityInput
            kind="airflow"
            label="Designed ventilation"
            value={facts.designedVentilation}
            onChange={(designedVentilation) => set({ designedVentilation })}
          />
        </>
      )}
      {asked.appliance && (
        <>
          <Choice
            label="Appliance"
            options={optionsOf(applianceWords)}
            value={facts.appliance}
            onChange={(appliance) => set({ appliance: appliance as Appliance['kind'] })}
          />
          <Choice
            label="Fuel"
            options={optionsOf(fuelWords)}
            value={facts.fuel}
            onChange={(fuel) => set({ fuel: fuel as Appliance['fuel'] })}
          />
          <Choice
            label="Vent"
            options={optionsOf(ventingWords)}
            value={facts.venting}
            onChange={(venting) => set({ venting: venting as Appliance['venting'] })}
          />
        </>
      )}
      {asked.ducts && (
        <Checkbox
          label="All ducts lie inside the house"
          checked={facts.ductsInside}
          onChange={(event) => set({ ductsInside: event.currentTarget.checked })}
        />
      )}
    </div>
  );
}
