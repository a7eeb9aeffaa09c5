import { builders } from '@countercheck/contracts';
import { DialogButton } from '../../components/feedback/index.ts';
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
                <DialogButton label="Change" title={`Change ${builder.name}`} variant="default">
                  {(close) => <BuilderForm builder={builder} onCancel={close} onDone={close} />}
                </DialogButton>
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
        </Page>
      )}
    </Asked>
  );
}
