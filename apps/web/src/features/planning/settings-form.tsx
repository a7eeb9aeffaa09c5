import { NumberInput, TextInput } from '@mantine/core';
import { planning, type PlanningSettings } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { Asked } from '../../components/states/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { kilometresPerMile } from './words.ts';

/** Where the office is and how time on the road is worked out. */
export function SettingsForm({ onClose }: { onClose: () => void }) {
  const query = useRoute(planning.settings, {});
  return <Asked query={query}>{(settings) => <Fields settings={settings} onClose={onClose} />}</Asked>;
}

const times = (value: string | number, factor: number) => (value === '' ? value : Number(value) * factor);
const given = (value: string | number) => (value === '' ? null : value);

function Fields({ settings, onClose }: { settings: PlanningSettings; onClose: () => void }) {
  const { unitSystem } = useMe();
  const perUnit = unitSystem === 'us' ? kilometresPerMile : 1;
  const shown = Number((settings.speed / perUnit).toFixed(1));
  const change = useAction(planning.changeSettings, { invalidates: [planning.settings] });
  const of = useContractForm({
    schema: planning.changeSettings.body,
    initialValues: {
      officeLatitude: settings.officeLatitude ?? '',
      officeLongitude: settings.officeLongitude ?? '',
      ...{ circuity: settings.circuity as number | string, speed: shown as number | string },
      routingUrl: settings.routingUrl ?? '',
    },
    toBody: (values) => ({
      ...values,
      // What nobody touched stays as it was, whatever the unit rounds.
      speed: values.speed === shown ? settings.speed : times(values.speed, perUnit),
      officeLatitude: given(values.officeLatitude),
      officeLongitude: given(values.officeLongitude),
      routingUrl: values.routingUrl.trim() || null,
    }),
    send: async (body) => {
      await change.mutateAsync({ body: body as BodyOf<typeof planning.changeSettings> });
      said('Kept. The next plan uses it.');
      onClose();
    },
  });
  const field = of.form.getInputProps;
  return (
    <FormBody of={of} action="Save" onCancel={onClose}>
      <NumberInput label="Office, latitude" suffix="°" decimalScale={6} {...field('officeLatitude')} />
      <NumberInput label="Office, longitude" suffix="°" decimalScale={6} {...field('officeLongitude')} />
      <NumberInput
        label="Roads over straight lines"
        description="1.3 means that a road is three tenths longer than the straight line."
        step={0.1}
        {...field('circuity')}
      />
      <NumberInput
        label={unitSystem === 'us' ? 'Speed, mph' : 'Speed, km/h'}
        description="Mean on the road, door to door."
        decimalScale={1}
        {...field('speed')}
      />
      <TextInput
        label="Routing service"
        description="Address of a service that answers with a table of minutes; empty = by the figures above."
        {...field('routingUrl')}
      />
    </FormBody>
  );
}
