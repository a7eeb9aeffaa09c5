import { houses } from '@countercheck/contracts';
import { useNavigate } from '@tanstack/react-router';
import { FormBody, said } from '../../../components/feedback/index.ts';
import { Page } from '../../../components/page/index.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useListSearch } from '../../../lib/list-search.ts';
import { useAction } from '../../../lib/query.ts';
import { HouseFields } from './house-fields.tsx';
import { bodyOfHouse, emptyHouse, type HouseValues } from './house-values.ts';

export default function NewHousePage() {
  const navigate = useNavigate();
  const { values } = useListSearch();
  const register = useAction(houses.register, { invalidates: [houses.list] });
  const of = useContractForm<HouseValues, ReturnType<typeof bodyOfHouse>>({
    schema: houses.register.body,
    initialValues: { ...emptyHouse, builderId: values.builderId ?? null },
    toBody: bodyOfHouse,
    send: async (body) => {
      const house = await register.mutateAsync({ body });
      said('House registered');
      await navigate({ to: `/houses/${house.id}` });
    },
  });
  return (
    <Page title="Register a house" back={{ to: '/houses', label: 'Houses' }}>
      <FormBody of={of} action="Register the house">
        <HouseFields form={of.form} isNew />
      </FormBody>
    </Page>
  );
}
