import { Button, TextInput } from '@mantine/core';
import { scheduling, type VisitRequest } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { Confirm, said } from '../../../components/feedback/index.ts';
import { Caution } from '../../../components/marks/index.ts';
import { DateText, FactList, Moment, Page, Panel } from '../../../components/page/index.ts';
import { DueTag, ReadinessForm } from '../../../components/readiness/index.ts';
import { Asked } from '../../../components/states/index.ts';
import { showMoment } from '../../../lib/dates.ts';
import { useParam } from '../../../lib/page-route.ts';
import { useAction, useRoute } from '../../../lib/query.ts';
import { useMe, useRole } from '../../../lib/session.ts';
import { instrumentWords } from '../../../lib/words/instruments.ts';
import {
  accessWords,
  deadlineWords,
  durationWords,
  qualificationWords,
  sourceWords,
  visitRequestStateWords,
} from '../../../lib/words/scheduling.ts';
import { visitKindWords } from '../../../lib/words/work.ts';
import { ChangeDialog } from './change-dialog.tsx';
import { ReadinessLinks } from './readiness-links.tsx';

const touched = [scheduling.requests, scheduling.request, scheduling.board];

/** One request: when, how long, with what, and whether the house is ready. */
export default function RequestPage() {
  const query = useRoute(scheduling.request, { params: { id: useParam('id') } });
  return <Asked query={query}>{(request) => <Request request={request} />}</Asked>;
}

function Request({ request }: { request: VisitRequest }) {
  const keeper = useRole('office', 'administrator');
  const zone = useMe().company.timezone;
  const [changing, setChanging] = useState(false);
  const [withdrawing, setWithdrawing] = useState(false);
  const [why, setWhy] = useState('');
  const withdraw = useAction(scheduling.withdraw, { invalidates: touched });
  const answer = useAction(scheduling.answerReadiness, { invalidates: touched });
  const { house, needs, readiness } = request;
  const open = request.state === 'open';
  return (
    <Page
      title={`${visitKindWords[request.kind]}: ${house.address}`}
      back={{ to: '/requests', label: 'Requests' }}
      lead={`Lot ${house.lot}, ${house.community}, ${house.builder.name}`}
      actions={
        keeper &&
        open && (
          <>
            <Button variant="default" color="red" onClick={() => setWithdrawing(true)}>
              Withdraw
            </Button>
            <Button variant="default" onClick={() => setChanging(true)}>
              Change
            </Button>
          </>
        )
      }
    >
      {request.withdrawnWhy && <Caution title="Withdrawn">{request.withdrawnWhy}</Caution>}
      <div className="columns">
        <Panel title="What is asked for">
          <FactList
            facts={[
              ['State', visitRequestStateWords[request.state]],
              ['Because', `${sourceWords[request.source]}, ${request.askedByName}`],
              ['Asked', <Moment key="asked" at={request.askedAt} />],
              ['From', <DateText key="from" date={request.earliestOn} />],
              [
                'By',
                request.deadlineOn && (
                  <>
                    <DateText date={request.deadlineOn} /> {deadlineWords[request.deadlineWhy ?? 'agreed']}{' '}
                    <DueTag request={request} />
                  </>
                ),
              ],
              ['Takes', durationWords(request.minutes)],
              ['Access', request.access && accessWords[request.access]],
              ['Key or contact', request.accessNote],
              ['Somebody is there', request.openFrom && `${request.openFrom} – ${request.openTo}`],
              [
                'Instruments',
                needs.instruments
                  .map((kinds) => kinds.map((kind) => instrumentWords[kind]).join(' or '))
                  .join(', '),
              ],
              ['Trained for', needs.qualifications.map((each) => qualificationWords[each]).join(', ')],
              ['Rather not', request.avoidRater && `${request.avoidRater.name}, whose work it is`],
              ['Note', request.note],
            ]}
          />
          <p className="row">
            <Link to={`/houses/${house.id}`}>House</Link>
            {open && keeper && <Link to="/board">Book on the week board</Link>}
            {request.visitId && <Link to={`/visits/${request.visitId}`}>Visit</Link>}
          </p>
        </Panel>
        <Panel title="Is the house ready?">
          <ReadinessForm
            key={request.readiness.points.map(({ at }) => at).join()}
            readiness={readiness}
            when={(instant) => showMoment(instant, zone)}
            send={(points) => answer.mutateAsync({ params: { id: request.id }, body: { points } })}
          />
        </Panel>
      </div>
      <ReadinessLinks request={request} keeper={keeper} />
      {changing && <ChangeDialog request={request} onClose={() => setChanging(false)} />}
      <Confirm
        title="Withdraw the request?"
        opened={withdrawing}
        onClose={() => setWithdrawing(false)}
        action="Withdraw"
        grave
        disabled={why.trim() === ''}
        onConfirm={async () => {
          await withdraw.mutateAsync({ params: { id: request.id }, body: { why: why.trim() } });
          said('Request withdrawn');
        }}
      >
        <TextInput
          label="Why"
          required
          maxLength={500}
          value={why}
          onChange={(event) => setWhy(event.currentTarget.value)}
        />
      </Confirm>
    </Page>
  );
}
