import { useSessionStorage } from '@mantine/hooks';
import type { VisitSheet } from '@countercheck/contracts';
import { lazy, Suspense, useEffect, useMemo } from 'react';
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
import { prepareItems } from './item-card.tsx';
import { ItemGroup } from './item-group.tsx';
import { Jumps } from './jumps.tsx';
import { SheetContext } from './sheet-context.ts';
import { SiteFacts } from './site-facts.tsx';
import { StatusCounts } from './status-counts.tsx';
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
  return (
    <SheetContext value={view}>
      <Page
        width="sheet"
        title={visit.house.address}
        {...(me.role === 'rater' ? { back: { to: '/day', label: 'My day' } } : {})}
        lead={
          <>
            <span>
              {visitTitles[visit.kind]}, {showDay(visit.startsAt, zone)}{' '}
              <span className="visit-span">
                {showTime(visit.startsAt, zone)}–{showTime(visit.endsAt, zone)}
              </span>
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
        {mayRecord && <Jumps />}
        {visit.scope && <p className="soft">Only what is to be looked at again comes up on this visit.</p>}
        {mayRecord && (
          <div id="to-read">
            <Suspense fallback={<Loading what="Loading what is to be read" />}>
              <WorkList />
            </Suspense>
          </div>
        )}
        <div id="items" role="group" aria-label="Where the items stand">
          <StatusCounts verdicts={verdicts} />
        </div>
        {verdicts.length === 0 && <Empty title="Nothing is to be tested on this visit" />}
        {(whole ? groups : groups.slice(0, 1)).map((group) => (
          <ItemGroup
            key={`${group.key} ${mayRecord}`}
            group={group}
            folded={mayRecord}
            opened={opened}
            onToggle={(key, open) =>
              setOpened((now) => (open ? [...new Set([...now, key])] : now.filter((each) => each !== key)))
            }
          />
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
        <div id="end">
          {mayRecord ? (
            <FinishPanel sheet={sheet} verdicts={verdicts} />
          ) : (
            <ClosedPanel visit={visit} mayReopen={own && visit.state === 'submitted'} />
          )}
        </div>
      </Page>
    </SheetContext>
  );
}
