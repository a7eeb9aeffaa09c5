import { Checkbox, TextInput } from '@mantine/core';
import { applianceWords, fuelWords, roomWords, ventingWords } from '../../lib/words/house.ts';
import { Choice, optionsOf, QuantityInput } from '../fields/index.ts';
import type { AnyForm } from '../../lib/forms/index.ts';
import type { ComponentProps } from 'react';
import { PartRows } from './part-rows.tsx';

const system = {
  label: '',
  kind: '',
  hasDucts: true,
  ductsInside: false,
  designAirflow: null,
  airHandlerAtRough: null,
};
const airHandlerWords = { true: 'In place', false: 'Not yet in place' };
const room = { label: '', kind: 'bedroom', supplyFlow: null, volume: null };
const appliance = {
  label: '',
  kind: 'water-heater',
  fuel: 'natural-gas',
  venting: 'atmospheric',
  location: '',
};

interface AirHandlerProps extends Omit<ComponentProps<typeof Choice>, 'options' | 'value' | 'onChange'> {
  value?: boolean | null;
  onChange: (value: boolean | null) => void;
}

/** In place, not in place, or not known yet, which is neither. */
function AirHandlerChoice({ value, onChange, ...rest }: AirHandlerProps) {
  return (
    <Choice
      {...rest}
      none="Not known"
      options={optionsOf(airHandlerWords)}
      value={value === null || value === undefined ? null : String(value)}
      onChange={(chosen) => onChange(chosen === null ? null : chosen === 'true')}
    />
  );
}

/** The systems, rooms and appliances that are tested in a house. */
export function PartsEditor({ form }: { form: AnyForm }) {
  const field = form.getInputProps;
  return (
    <div className="stack">
      <PartRows
        form={form}
        path="parts.systems"
        title="Heating and cooling systems"
        one="a system"
        blank={system}
        row={(path) => (
          <>
            <TextInput label="Label" placeholder="System 1" {...field(`${path}.label`)} />
            <TextInput label="Kind" placeholder="Heat pump, ducted" {...field(`${path}.kind`)} />
            <QuantityInput kind="airflow" label="Design airflow" {...field(`${path}.designAirflow`)} />
            <div className="ticks">
              <Checkbox label="Has ducts" {...field(`${path}.hasDucts`, { type: 'checkbox' })} />
              <Checkbox
                label="Ducts and air handler visibly inside"
                {...field(`${path}.ductsInside`, { type: 'checkbox' })}
              />
            </div>
            <AirHandlerChoice
              label="Air handler at the rough-in test"
              {...field(`${path}.airHandlerAtRough`)}
            />
          </>
        )}
      />
      <PartRows
        form={form}
        path="parts.rooms"
        title="Bedrooms, bathrooms and kitchens"
        one="a room"
        blank={room}
        row={(path) => (
          <>
            <TextInput label="Label" placeholder="Bedroom 1" {...field(`${path}.label`)} />
            <Choice label="Kind" options={optionsOf(roomWords)} {...field(`${path}.kind`)} />
            <QuantityInput kind="airflow" label="Design supply airflow" {...field(`${path}.supplyFlow`)} />
            <QuantityInput kind="volume" label="Volume" {...field(`${path}.volume`)} />
          </>
        )}
      />
      <PartRows
        form={form}
        path="parts.appliances"
        title="Fuel-burning and exhausting appliances"
        one="an appliance"
        blank={appliance}
        row={(path) => (
          <>
            <TextInput label="Label" placeholder="Water heater" {...field(`${path}.label`)} />
            <Choice label="Kind" options={optionsOf(applianceWords)} {...field(`${path}.kind`)} />
            <Choice label="Fuel" options={optionsOf(fuelWords)} {...field(`${path}.fuel`)} />
            <Choice label="Venting" options={optionsOf(ventingWords)} {...field(`${path}.venting`)} />
            <TextInput label="Location" placeholder="Garage" {...field(`${path}.location`)} />
          </>
        )}
      />
    </div>
  );
}
