import { Textarea, TextInput } from '@mantine/core';
import type { UseFormReturnType } from '@mantine/form';
import { builders, climateZones, service } from '@countercheck/contracts';
import { BuilderChoice } from '../../../components/choosers/index.ts';
import { Choice, QuantityInput } from '../../../components/fields/index.ts';
import { FiguresFields, PartsEditor } from '../../../components/house-form/index.ts';
import { Panel } from '../../../components/page/index.ts';
import { useRoute } from '../../../lib/query.ts';
import { filledByPlan, type HouseValues } from './house-values.ts';

const zones = climateZones.map((zone) => ({ value: zone, label: zone }));
const named = (list: readonly { id: string; name: string }[]) =>
  list.map(({ id, name }) => ({ value: id, label: name }));

/** The fields of one house: where it is, its size and ventilation, its parts. */
export function HouseFields({ form, isNew }: { form: UseFormReturnType<HouseValues>; isNew: boolean }) {
  const { builderId, communityId } = form.getValues();
  const query = useRoute(builders.show, { params: { id: builderId ?? '' } }, { enabled: Boolean(builderId) });
  const builder = builderId ? query.data : undefined;
  const field = form.getInputProps;

  function chooseCommunity(id: string | null) {
    const community = builder?.communityList.find((each) => each.id === id);
    form.setValues({ communityId: id, ...(community ? { climateZone: community.climateZone } : {}) });
  }
  function choosePlan(id: string | null) {
    const plan = builder?.planList.find((each) => each.id === id);
    // A registered house keeps what was entered for it, whatever its plan says by now.
    form.setValues({ planId: id, ...(plan && isNew ? filledByPlan(plan) : {}) });
  }

  return (
    <>
      <Panel title="Where it is">
        <div className="stack">
          <div className="fields">
            <BuilderChoice
              value={builderId}
              disabled={!isNew}
              error={builderId ? undefined : (form.errors.communityId as string | undefined)}
              onChange={(id) => form.setValues({ builderId: id, communityId: null, planId: null })}
            />
            <Choice
              label="Community"
              none={builder ? 'Choose a community' : 'Choose the builder first'}
              disabled={!builder}
              options={named(builder?.communityList ?? [])}
              {...field('communityId')}
              value={communityId}
              onChange={chooseCommunity}
            />
            <Choice
              label="Plan"
              description={isNew ? 'Fills in the figures and parts below' : undefined}
              inputWrapperOrder={['label', 'input', 'description', 'error']}
              none="No plan"
              disabled={!builder}
              options={named(builder?.planList.filter((plan) => plan.active) ?? [])}
              {...field('planId')}
              onChange={choosePlan}
            />
          </div>
          <div className="fields">
            <TextInput label="Address" autoComplete="off" {...field('address')} />
            <TextInput label="Lot" autoComplete="off" {...field('lot')} />
            <Choice label="Climate zone" none="Choose a zone" options={zones} {...field('climateZone')} />
            <QuantityInput kind="ratio" label="Latitude" {...field('latitude')} />
            <QuantityInput kind="ratio" label="Longitude" {...field('longitude')} />
            {isNew && <RuleSetChoice form={form} />}
          </div>
          <Textarea label="Note" autosize minRows={2} {...field('note')} />
        </div>
      </Panel>
      <Panel title="Size and ventilation">
        <FiguresFields form={form} />
      </Panel>
      <Panel title="Parts to test">
        <PartsEditor form={form} />
      </Panel>
    </>
  );
}

function RuleSetChoice({ form }: { form: UseFormReturnType<HouseValues> }) {
  const { data } = useRoute(service.ruleSets, {});
  const offered = (data ?? []).filter((set) => set.offered);
  return (
    <Choice
      label="Rule set"
      none="The company's usual one"
      options={offered.map(({ id, title, version }) => ({ value: id, label: `${title} ${version}` }))}
      {...form.getInputProps('ruleSetId')}
    />
  );
}
