import { houses, type HouseDetail } from '@countercheck/contracts';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { FormBody, said } from '../../../components/feedback/index.ts';
import { Page } from '../../../components/page/index.ts';
import { Asked } from '../../../components/states/index.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useParam } from '../../../lib/page-route.ts';
import { useAction, useRoute } from '../../../lib/query.ts';
import { HouseFields } from './house-fields.tsx';
import { bodyOfHouse, valuesOf, type HouseValues } from './house-values.ts';

export default function EditHousePage() {
  const id = useParam('id');
  const query = useRoute(houses.show, { params: { id } });
  return <Asked query={query}>{(house) => <EditHouse house={house} />}</Asked>;
}

function EditHouse({ house }: { house: HouseDetail }) {
  const navigate = useNavigate();
  // The form was filled from this version; a later one loaded meanwhile is somebody else's change.
  const [expectedUpdatedAt] = useState(house.updatedAt);
  const to = `/houses/${house.id}`;
  const change = useAction(houses.change, { invalidates: [houses.show, houses.list, houses.events] });
  const of = useContractForm<HouseValues, ReturnType<typeof bodyOfHouse> & { expectedUpdatedAt: string }>({
    schema: houses.change.body,
    initialValues: valuesOf(house),
    toBody: (values) => ({ ...bodyOfHouse({ ...values, ruleSetId: null }), expectedUpdatedAt }),
    send: async (body) => {
      await change.mutateAsync({ params: { id: house.id }, body });
      said('House saved');
      await navigate({ to });
    },
  });
  return (
    <Page title={`Change ${house.address}`} back={{ to, label: house.address }}>
      <FormBody of={of} action="Save" onCancel={() => void navigate({ to })}>
        <HouseFields form={of.form} isNew={false} />
      </FormBody>
    </Page>
  );
}
