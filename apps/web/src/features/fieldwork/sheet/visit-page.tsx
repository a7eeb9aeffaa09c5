import { useSessionStorage } from '@mantine/hooks';
import type { VisitSheet } from '@countercheck/contracts';
import { lazy, Suspense, useEffect, useMemo } from 'react';
import { StatusMark } from '../../../components/marks/index.ts';
import { Page } from '../../../components/page/index.ts';
import { Asked, Empty, Loading } from '../../../components/states/index.ts';
import { showTime, showDay } from '../../../lib/dates.ts';
import { useParam } from '../../../lib/page-route.ts';
import { useMe } from '../../../lib/session.ts';
import { useSheet } from '../data/sheet.ts';
import { ClosedPanel } from '../finish/closed-panel.tsx';
import { FinishPanel } from '../finish/finish-panel.tsx';
import { Findings } from '../returned/findings.tsx';
import { visitTitles, visitStateWords } from '../../../lib/words/work.ts';
import { groupItems } from './groups.ts';
import { useVerdictsIn } from '../../../lib/units/verdict-in.ts';
import { Hazards } from './hazards.tsx';
import { HouseFacts } from './house-facts.tsx';
import { ItemCard, prepareItems } from './item-card.tsx';
import { SheetContext } from './sheet-context.ts';
import { SiteFacts } from './site-facts.tsx';
import { useWhole } from './use-whole.ts';
import { verdictKey, verdictsOf } from './verdicts.ts';
import '../fieldwork.css';

// It names every field of every test, which weighs more than the sheet; asked for while the sheet is still being read.
const workList = import('../work/work-list.tsx');
const WorkList = lazy(() => workList);

/** The rater's sheet of one visit: what to mind, what to test, and the end of the visit. */
export default function VisitPage() {
  const query = useSheet(useParam('id'));
  return (
    <Asked query={query} what="Loading the sheet">
      {(sheet) => <Sheet sheet={sheet} />}
    </Asked>
  );
}

function Sheet({ sheet }: { sheet: VisitSheet }) {
  const { visit } = sheet;
  const me = useMe();
  const zone = me.company.timezone;
  const [opened, setOpened] = useSessionStorage<string[]>({
    key: `sheet-open:${visit.id}`,
    defaultValue: [],
    getInitialValueInEffect: false,
  });
  const verdicts = useVerdictsIn(verdictsOf(sheet));
  const { groups, folded } = useMemo(() => groupItems(verdicts), [verdicts]);
  const own = me.role === 'rater' && visit.rater.id === me.id;
  const mayRecord = own && (visit.state === 'booked' || visit.state === 'in_progress');
  useEffect(prepareItems, []);
  const view = useMemo(() => ({ sheet, mayRecord }), [sheet, mayRecord]);
  const whole = useWhole();
  const counts = (['pass', 'exempt', 'fail', 'waiting'] as const).map(
    (status) => [status, verdicts.filter((each) => each.status === status).length] as const,
  );
  return (
    <SheetContext value={view}>
      <Page
        width="sheet"
        title={visit.house.address}
        {...(me.role === 'rater' ? { back: { to: '/day', label: 'My day' } } : {})}
        lead={
          <>
            <span>
              {visitTitles[visit.kind]}, {showDay(visit.startsAt, zone)} {showTime(visit.startsAt, zone)}–
              {showTime(visit.endsAt, zone)}
            </span>
            <span>
              {visitStateWords[visit.state]}
              {own ? '' : ` · ${visit.rater.name}`}
            </span>
            <span>
              {visit.house.community}, lot {visit.house.lot} · {visit.house.builder.name}
            </span>
          </>
        }
      >
        <Hazards sheet={sheet} verdicts={verdicts} />
        {visit.note && <p>Note from the office: {visit.note}</p>}
        {sheet.site && <SiteFacts site={sheet.site} />}
        <Findings house={visit.house} />
        <HouseFacts sheet={sheet} />
        {visit.scope && <p className="soft">Only what is to be looked at again comes up on this visit.</p>}
        {mayRecord && (
          <Suspense fallback={<Loading what="Loading what is to be read" />}>
            <WorkList />
          </Suspense>
        )}
        <ul className="counts" aria-label="Where the items stand">
          {counts.map(([status, count]) => (
            <li key={status}>
              <StatusMark status={status} size="s" /> {count}
            </li>
          ))}
        </ul>
        {verdicts.length === 0 && <Empty title="Nothing is to be tested on this visit" />}
        {(whole ? groups : groups.slice(0, 1)).map((group) => (
          <section key={group.key} className="item-group" aria-label={group.title}>
            <h2>{group.title}</h2>
            <p className="soft small">{group.rig}</p>
            {group.verdicts.map((verdict) => {
              const key = verdictKey(verdict);
              return (
                <ItemCard
                  key={key}
                  verdict={verdict}
                  startsOpen={opened.includes(key)}
                  onToggle={(open) =>
                    setOpened((now) =>
                      open ? [...new Set([...now, key])] : now.filter((each) => each !== key),
                    )
                  }
                />
              );
            })}
          </section>
        ))}
        {folded.length > 0 && (
          <details className="fold fold-panel">
            <summary>Does not apply to this house ({folded.length})</summary>
            <ul className="waiting-list">
              {folded.map((verdict) => (
                <li key={verdictKey(verdict)}>
                  {verdict.title}, {verdict.subjectLabel}: <span className="soft">{verdict.reason}</span>
                </li>
              ))}
            </ul>
          </details>
        )}
        {mayRecord ? (
          <FinishPanel sheet={sheet} verdicts={verdicts} />
        ) : (
          <ClosedPanel visit={visit} mayReopen={own && visit.state === 'submitted'} />
        )}
      </Page>
    </SheetContext>
  );
}
