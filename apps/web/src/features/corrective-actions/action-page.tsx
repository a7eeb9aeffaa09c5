import { Button } from '@mantine/core';
import { correctiveActions, type CorrectiveAction } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { Tag } from '../../components/marks/index.ts';
import { DateText, FactList, Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { ChangeForm, CloseForm, EffectivenessForm } from './action-forms.tsx';
import { EvidencePanel } from './evidence-panel.tsx';
import { HoldForm, HoldsTable } from './holds-panel.tsx';
import { OrdersPanel } from './orders-panel.tsx';
import { percentWords } from './shares.ts';

type Asking = 'change' | 'effect' | 'close' | 'hold';

/** One corrective action, from its cause to whether it has helped. */
export default function ActionPage() {
  const query = useRoute(correctiveActions.show, { params: { id: useParam('id') } });
  return <Asked query={query}>{(action) => <Shown action={action} />}</Asked>;
}

function Shown({ action }: { action: CorrectiveAction }) {
  const [asking, setAsking] = useState<Asking | null>(null);
  const { state, about, subject, effective, restoredAt } = action;
  const open = state === 'open';
  const close = () => setAsking(null);
  return (
    <Page
      title={`Corrective action: ${about.name}`}
      back={{ to: '/corrective-actions', label: 'Corrective actions' }}
      lead={
        <>
          <span>
            Opened by {action.openedBy}, <Moment at={action.openedAt} />
          </span>
          <Tag tone={open ? 'brass' : 'good'}>{open ? 'Open' : 'Closed'}</Tag>
          {action.held && <Tag tone="bad">Held</Tag>}
          {action.effectivenessOverdue && <Tag tone="bad">Check overdue</Tag>}
        </>
      }
      actions={
        open && (
          <>
            <Button variant="default" onClick={() => setAsking('change')}>
              Change
            </Button>
            {subject === 'rater' && !action.held && (
              <Button variant="default" onClick={() => setAsking('hold')}>
                Hold the rater
              </Button>
            )}
            <Button variant="default" onClick={() => setAsking('effect')}>
              Check whether it helped
            </Button>
            {effective && <Button onClick={() => setAsking('close')}>Close</Button>}
          </>
        )
      }
    >
      <Panel title="What it is about">
        <FactList
          facts={[
            ['Cause', action.cause],
            ['Action', action.action],
            ['Files reviewed', percentWords(restoredAt ? null : action.raisedFileShare)],
            ['Houses re-tested', percentWords(restoredAt ? null : action.raisedFieldShare)],
            [
              'Clean files in a row',
              `${Math.min(action.cleanFiles, action.cleanFilesNeeded)} of ${action.cleanFilesNeeded}`,
            ],
            ['Reached', restoredAt ? <Moment key="r" at={restoredAt} /> : 'Not yet'],
            ['Looked at again', <DateText key="d" date={action.effectivenessDueOn} />],
            [
              'Has it helped',
              effective === null ? (
                'Not checked yet'
              ) : (
                <>
                  {effective ? 'Yes' : 'Not yet'}, {action.effectivenessBy},{' '}
                  <Moment at={action.effectivenessAt} day />: {action.effectivenessNote}
                </>
              ),
            ],
            ...(open
              ? []
              : ([['Closed', `${action.closedBy}: ${action.closeReason}`]] as [string, string][])),
          ]}
        />
      </Panel>
      <OrdersPanel orders={action.orders} />
      <Panel title="File reviews since" flush>
        {action.reviews.length === 0 ? (
          <p className="panel-body soft">None is finished yet. A finding begins the count anew.</p>
        ) : (
          <RowsTable
            caption="File reviews since"
            rows={action.reviews}
            keyOf={({ id }) => id}
            columns={[
              {
                title: 'House',
                head: true,
                cell: (row) => <Link to={`/file-reviews/${row.id}`}>{row.address}</Link>,
              },
              { title: 'Finished', cell: (row) => <Moment at={row.doneAt} /> },
              {
                title: 'Outcome',
                cell: (row) => (
                  <Tag tone={row.outcome === 'clean' ? 'good' : 'bad'}>
                    {row.outcome === 'clean' ? 'Clean' : 'Findings'}
                  </Tag>
                ),
              },
            ]}
          />
        )}
      </Panel>
      <EvidencePanel action={action} />
      {action.holds.length > 0 && (
        <Panel title="Holds" flush>
          <HoldsTable holds={action.holds} />
        </Panel>
      )}
      {asking === 'change' && <ChangeForm action={action} onClose={close} />}
      {asking === 'effect' && <EffectivenessForm action={action} onClose={close} />}
      {asking === 'close' && <CloseForm action={action} onClose={close} />}
      {asking === 'hold' && <HoldForm action={{ id: action.id, raterId: about.id }} onClose={close} />}
    </Page>
  );
}
