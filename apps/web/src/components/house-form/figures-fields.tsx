import { Checkbox } from '@mantine/core';
import { foundationWords, ventilationWords } from '../../lib/words/house.ts';
import { Choice, optionsOf, QuantityInput } from '../fields/index.ts';
import type { AnyForm } from '../../lib/forms/index.ts';

/** Size, foundation and ventilation of a house or plan. */
export function FiguresFields({ form }: { form: AnyForm }) {
  return (
    <div className="stack">
      <div className="fields">
        <QuantityInput
          kind="floorArea"
          label="Conditioned floor area"
          {...form.getInputProps('conditionedFloorArea')}
        />
        <QuantityInput
          kind="volume"
          label="Conditioned volume"
          {...form.getInputProps('conditionedVolume')}
        />
        <QuantityInput kind="count" label="Bedrooms" {...form.getInputProps('bedrooms')} />
        <QuantityInput kind="count" label="Storeys" {...form.getInputProps('storeys')} />
        <Choice
          label="Foundation"
          options={optionsOf(foundationWords)}
          {...form.getInputProps('foundation')}
        />
        <Choice
          label="Whole-house ventilation"
          options={optionsOf(ventilationWords)}
          {...form.getInputProps('ventilationKind')}
        />
        <QuantityInput
          kind="airflow"
          label="Designed ventilation rate"
          {...form.getInputProps('designedVentilation')}
        />
      </div>
      <Checkbox
        label="The ventilator has ducts of its own"
        {...form.getInputProps('ventilatorDucted', { type: 'checkbox' })}
      />
    </div>
  );
}
