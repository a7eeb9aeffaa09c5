import { Button } from '@mantine/core';
import { scheduling } from '@countercheck/contracts';
import { useState } from 'react';
import { Confirm, said } from '../../components/feedback/index.ts';
import { CopyText } from '../../components/fields/index.ts';
import { Caution } from '../../components/marks/index.ts';
import { FactList, Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked, Problem } from '../../components/states/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';

/** The private address from which a rater's own calendar reads his visits. */
export default function CalendarPage() {
  const query = useRoute(scheduling.calendarLink, {});
  const invalidates = [scheduling.calendarLink];
  const make = useAction(scheduling.makeCalendarLink, { invalidates });
  const withdraw = useAction(scheduling.withdrawCalendarLink, { invalidates });
  const [url, setUrl] = useState<string | null>(null);
  const [asking, setAsking] = useState<'make' | 'withdraw' | null>(null);
  const makeOne = async () => {
    const answer = await make.mutateAsync({});
    setUrl(answer.url);
  };
  return (
    <Page
      title="Calendar"
      width="reading"
      lead="Your visits in the calendar of your phone or computer, always as they stand now"
    >
      <Panel title="Address of your calendar">
        <Asked query={query}>
          {({ open }) => (
            <div className="stack">
              {url && open && (
                <>
                  <CopyText label="Address" text={url} />
                  <p>
                    It is shown once. In your calendar, add a calendar by its address; the calendar asks by
                    itself again and again.
                  </p>
                </>
              )}
              {open ? (
                <FactList
                  facts={[
                    ['Made', <Moment key="made" at={open.createdAt} />],
                    ['Last read', <Moment key="read" at={open.lastReadAt} />],
                  ]}
                />
              ) : (
                <p>There is no address yet.</p>
              )}
              <Caution>
                Whoever knows the address sees where you are and how a house is opened. Give it to nobody;
                when a phone is lost, withdraw it.
              </Caution>
              {make.isError && <Problem error={make.error} />}
              <div className="row">
                <Button
                  loading={make.isPending}
                  onClick={() => (open ? setAsking('make') : void makeOne().catch(() => undefined))}
                >
                  {open ? 'Make another address' : 'Make an address'}
                </Button>
                {open && (
                  <Button variant="default" color="red" onClick={() => setAsking('withdraw')}>
                    Withdraw it
                  </Button>
                )}
              </div>
            </div>
          )}
        </Asked>
      </Panel>
      <Confirm
        title={asking === 'make' ? 'Make another address?' : 'Withdraw the address?'}
        opened={asking !== null}
        onClose={() => setAsking(null)}
        action={asking === 'make' ? 'Make another' : 'Withdraw'}
        grave
        onConfirm={async () => {
          if (asking === 'make') return makeOne();
          await withdraw.mutateAsync({});
          setUrl(null);
          said('The address no longer works');
        }}
      >
        <p>Calendars that read the present address get nothing from it any more.</p>
      </Confirm>
    </Page>
  );
}
