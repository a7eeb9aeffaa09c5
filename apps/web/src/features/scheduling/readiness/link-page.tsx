import { scheduling } from '@countercheck/contracts';
import { LinkGone } from '../../../components/link-gone/index.ts';
import { Caution } from '../../../components/marks/index.ts';
import { FactList, Page } from '../../../components/page/index.ts';
import { ReadinessForm } from '../../../components/readiness/index.ts';
import { Loading, Problem } from '../../../components/states/index.ts';
import { showDate } from '../../../lib/dates.ts';
import { useParam } from '../../../lib/page-route.ts';
import { hasCode } from '../../../lib/problem.ts';
import { useAction, useRoute } from '../../../lib/query.ts';
import { visitKindWords } from '../../../lib/words/work.ts';

/** The reader's own clock: whoever holds the link has no account and so no company whose clock it could be. */
const showHere = (instant: string) =>
  new Date(instant).toLocaleString('en-US', {
    ...{ year: 'numeric', month: 'short', day: 'numeric', hour: 'numeric', minute: '2-digit' },
    timeZoneName: 'short',
  });

/** What somebody at the site sees behind the personal link: the readiness list of one visit. */
export default function ReadyPage() {
  const token = useParam('token');
  const query = useRoute(scheduling.readinessForm, { params: { token } });
  const confirm = useAction(scheduling.confirmReadiness, { invalidates: [scheduling.readinessForm] });
  if (hasCode(query.error, 'link-unknown', 'link-expired', 'link-revoked'))
    return <LinkGone error={query.error} />;
  if (query.isError && !query.data) return <Problem error={query.error} retry={() => void query.refetch()} />;
  if (!query.data) return <Loading what="Opening the list" />;
  const { company, name, house, kind, earliestOn, deadlineOn, open, readiness, expiresAt } = query.data;
  return (
    <Page width="sheet" title="Is the house ready?" lead={`${company} asks ${name}`}>
      <FactList
        facts={[
          ['House', house.address],
          ['Lot', house.lot],
          ['Community', house.community],
          ['Builder', house.builder],
          ['Visit', visitKindWords[kind]],
          ['Wanted from', showDate(earliestOn)],
          ['By', deadlineOn && showDate(deadlineOn)],
          ['Link open until', showHere(expiresAt)],
        ]}
      />
      {open ? (
        <ReadinessForm
          key={readiness.points.map(({ at }) => at).join()}
          readiness={readiness}
          when={showHere}
          send={(points) => confirm.mutateAsync({ params: { token }, body: { points } })}
        />
      ) : (
        <Caution title="Nothing is awaited any more">
          The visit was made, or is no longer asked for. Call {company} if that is wrong.
        </Caution>
      )}
    </Page>
  );
}
