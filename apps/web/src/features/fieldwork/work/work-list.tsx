import type { OrderedWork, Stretch } from '@countercheck/assessment';
import { Button } from '@mantine/core';
import { lazy, Suspense, useEffect, useMemo, useRef, useState } from 'react';
import { Panel } from '../../../components/page/index.ts';
import { whenIdle } from '../../../lib/later.ts';
import { outcomesOf } from '../sheet/outcomes.ts';
import { useSheetView } from '../sheet/sheet-context.ts';
import { useWhole } from '../sheet/use-whole.ts';
import { doneHere, openWork, workName, type OpenWork } from './open-work.ts';
import { whereLeft } from './steps.ts';
import { WorkCard, WorkLine } from './work-card.tsx';
import './work.css';

const loadPad = () => import('../pad/pad.tsx');
const Pad = lazy(loadPad);

const stretchWords: Record<Stretch, string> = {
  combustion: 'Combustion and carbon monoxide',
  tightness: 'Envelope and ducts',
  air: 'Pressures and airflow',
};
const keyOf = ({ work }: OrderedWork<OpenWork>) => `${work.test}/${work.subjectId}`;

/**
 * What is still to be read, in the order of work. Of the next test every field stands there, a tap away; each later
 * one is a line, from which the pad leads to its fields. What is typed is kept with each key.
 */
export default function WorkList() {
  const whole = useWhole();
  const { sheet } = useSheetView();
  const open = useMemo(() => openWork(sheet, outcomesOf(sheet)), [sheet]);
  const [pad, setPad] = useState<{ work: OrderedWork<OpenWork>; begin: string | null } | null>(null);
  const list = useRef<HTMLDivElement>(null);
  // A phone has no pointer that comes near before it presses.
  useEffect(() => whenIdle(() => void loadPad().catch(() => undefined)), []);
  const close = () => {
    setPad(null);
    // The key that opened it may be gone with its test.
    setTimeout(() => {
      if (document.activeElement === document.body) list.current?.focus({ preventScroll: true });
    });
  };
  const [first] = open;
  if (!first && !pad) return null;
  const stretches = [...new Set(open.map(({ stretch }) => stretch))];
  const shown = whole ? stretches : stretches.slice(0, 1);
  const next = pad && (open.find((each) => keyOf(each) !== keyOf(pad.work)) ?? null);
  const done = doneHere(sheet);
  return (
    <Panel title={`To be read, in this order (${open.length})`}>
      <div ref={list} tabIndex={-1} className="stack">
        {shown.map((stretch) => (
          <section key={stretch} aria-label={`To be read: ${stretchWords[stretch]}`} className="work-stretch">
            <h3>{stretchWords[stretch]}</h3>
            <ol className="work-list">
              {open
                .filter((each) => each.stretch === stretch)
                .map((each) => {
                  const Each = each === first ? WorkCard : WorkLine;
                  return (
                    <Each key={keyOf(each)} work={each} onEnter={(begin) => setPad({ work: each, begin })} />
                  );
                })}
            </ol>
          </section>
        ))}
      </div>
      {first && (
        <div className="work-bar">
          <Button size="xl" fullWidth onClick={() => setPad({ work: first, begin: whereLeft })}>
            <span className="work-bar-words">
              <span className="small">
                {done} of {done + open.length} read. Next:
              </span>{' '}
              <span className="work-bar-name">{workName(first.work)}</span>
            </span>
          </Button>
        </div>
      )}
      {pad && (
        <Suspense fallback={null}>
          <Pad
            key={keyOf(pad.work)}
            work={pad.work}
            begin={pad.begin}
            next={next}
            onGoOn={(work) => setPad({ work, begin: whereLeft })}
            onClose={close}
          />
        </Suspense>
      )}
    </Panel>
  );
}
