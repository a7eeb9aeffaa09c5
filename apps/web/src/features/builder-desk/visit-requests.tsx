import { Button } from '@mantine/core';
import { scheduling, type HouseDetail, type VisitRequest } from '@countercheck/contracts';
import { useState } from 'react';
import { DateText, Panel } from '../../components/page/index.ts';
import { AskVisitDialog, ReadinessForm } from '../../components/readiness/index.ts';
import { Asked } from '../../components/states/index.ts';
import { showMoment } from '../../lib/dates.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { readinessShort, visitRequestStateWords } from '../../lib/words/scheduling.ts';
import { visitTitles } from '../../lib/words/work.ts';

const waits = ({ state }: VisitRequest) => state === 'open' || state === 'booked';

/** What is asked for at a house of the builder, and whether it is ready for it. */
export function VisitRequests({ house }: { house: HouseDetail }) {
  const [asking, setAsking] = useState(false);
  const query = useRoute(scheduling.requests, { query: { houseId: house.id, pageSize: 100 } });
  if (house.stage === 'released') return null;
  return (
    <Panel
      title="Visits asked for"
      actions={
        <Button size="xs" variant="default" onClick={() => setAsking(true)}>
          The house is ready
        </Button>
      }
    >
      <Asked query={query}>
        {({ items }) => (
          <div className="stack">
            {items.filter(waits).length === 0 && (
              <p className="soft">Nothing is asked for. Say when the house is ready for its test.</p>
            )}
            {items.filter(waits).map((request) => (
              <Waiting key={request.id} request={request} />
            ))}
          </div>
        )}
      </Asked>
      {asking && <AskVisitDialog house={house} onClose={() => setAsking(false)} />}
    </Panel>
  );
}

function Waiting({ request }: { request: VisitRequest }) {
  const zone = useMe().company.timezone;
  const answer = useAction(scheduling.answerReadiness, { invalidates: [scheduling.requests] });
  return (
    <section className="stack" aria-label={`${visitTitles[request.kind]}: is the house ready?`}>
      <p>
        <strong>{visitTitles[request.kind]}</strong>, {visitRequestStateWords[request.state].toLowerCase()},
        from <DateText date={request.earliestOn} />
        {request.deadlineOn && (
          <>
            , by <DateText date={request.deadlineOn} />
          </>
        )}
        . {readinessShort(request.readiness)}.
      </p>
      <ReadinessForm
        key={request.readiness.points.map(({ at }) => at).join()}
        readiness={request.readiness}
        when={(instant) => showMoment(instant, zone)}
        send={(points) => answer.mutateAsync({ params: { id: request.id }, body: { points } })}
      />
    </section>
  );
}
