import { TextInput } from '@mantine/core';
import { builders, climateZones, type Community } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { Choice, QuantityInput } from '../../components/fields/index.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';

interface CommunityFormProps {
  builderId: string;
  community: Community | undefined;
  onDone: () => void;
}

export function CommunityForm({ builderId, community, onDone }: CommunityFormProps) {
  const invalidates = [builders.show, builders.list];
  const add = useAction(builders.addCommunity, { invalidates });
  const change = useAction(builders.changeCommunity, { invalidates });
  const of = useContractForm({
    schema: builders.addCommunity.body,
    initialValues: {
      name: community?.name ?? '',
      jurisdiction: community?.jurisdiction ?? '',
      climateZone: community?.climateZone ?? '4A',
      latitude: community?.latitude ?? null,
      longitude: community?.longitude ?? null,
    },
    send: async (body) => {
      if (community) await change.mutateAsync({ params: { id: community.id }, body });
      else await add.mutateAsync({ params: { id: builderId }, body });
      said('Community saved');
      onDone();
    },
  });
  const field = of.form.getInputProps;
  return (
    <FormBody of={of} action="Save" onCancel={onDone}>
      <div className="fields">
        <TextInput label="Name" data-autofocus {...field('name')} />
        <TextInput
          label="Jurisdiction"
          description="The authority whose code applies"
          inputWrapperOrder={['label', 'input', 'description', 'error']}
          {...field('jurisdiction')}
        />
        <Choice
          label="Climate zone"
          options={climateZones.map((zone) => ({ value: zone, label: zone }))}
          {...field('climateZone')}
        />
        <QuantityInput kind="ratio" label="Latitude" {...field('latitude')} />
        <QuantityInput kind="ratio" label="Longitude" {...field('longitude')} />
      </div>
    </FormBody>
  );
}
