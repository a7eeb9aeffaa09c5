import { Button } from '@mantine/core';
import { builders } from '@countercheck/contracts';
import { useState } from 'react';
import { Dialog } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { ButtonLink, FactList, Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { BuilderForm } from './builder-form.tsx';
import { CommunitiesPanel } from './communities-panel.tsx';
import { ContactsPanel } from './contacts-panel.tsx';
import { PlansPanel } from './plans-panel.tsx';

export default function BuilderPage() {
  const id = useParam('id');
  const query = useRoute(builders.show, { params: { id } });
  const keeper = useRole('office', 'administrator');
  const [changing, setChanging] = useState(false);
  return (
    <Asked query={query}>
      {(builder) => (
        <Page
          title={builder.name}
          back={{ to: '/builders', label: 'Builders' }}
          lead={!builder.active && <Tag>Not active</Tag>}
          actions={
            <>
              {keeper && (
                <Button variant="default" onClick={() => setChanging(true)}>
                  Change
                </Button>
              )}
              <ButtonLink to="/houses" search={{ builderId: id }} variant="default">
                {builder.houses} houses
              </ButtonLink>
            </>
          }
        >
          <Panel title="Builder">
            <FactList
              facts={[
                ['Phone', builder.phone],
                ['Address', builder.address],
                ['Failed items open', builder.openFailedItems],
                ['Note', builder.note],
              ]}
            />
          </Panel>
          <ContactsPanel builder={builder} keeper={keeper} />
          <CommunitiesPanel builder={builder} keeper={keeper} />
          <PlansPanel builder={builder} keeper={keeper} />
          {changing && (
            <Dialog title={`Change ${builder.name}`} onClose={() => setChanging(false)}>
              <BuilderForm
                builder={builder}
                onCancel={() => setChanging(false)}
                onDone={() => setChanging(false)}
              />
            </Dialog>
          )}
        </Page>
      )}
    </Asked>
  );
}
