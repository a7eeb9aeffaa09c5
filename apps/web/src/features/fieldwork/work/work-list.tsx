import type { OrderedWork, Stretch } from '@countercheck/assessment';
import { lazy, Suspense, useMemo, useRef, useState } from 'react';
import { Panel } from '../../../components/page/index.ts';
import { outcomesOf } from '../sheet/outcomes.ts';
import { useSheetView } from '../sheet/sheet-context.ts';
import { useWhole } from '../sheet/use-whole.ts';
import { openWork, type OpenWork } from './open-work.ts';
import { WorkCard } from './work-card.tsx';
import './work.css';

const loadPad = () => import('../pad/pad.tsx');
const Pad = lazy(loadPad);

const stretchWords: Record<Stretch, string> = {
  combustion: 'Combustion and carbon monoxide',
  tightness: 'Envelope and ducts',
  air: 'Pressures and airflow',
};
const keyOf = ({ work }: OrderedWork<OpenWork>) => `${work.test}/${work.subjectId}`;

/** What is still to be read, in the order of work: every field is one tap away, and a second one keeps it. */
export default function WorkList() {
  const whole = useWhole();
  const { sheet } = useSheetView();
  const open = useMemo(() => openWork(sheet, outcomesOf(sheet)), [sheet]);
  const [pad, setPad] = useState<{ work: OrderedWork<OpenWork>; begin: string | null } | null>(null);
  const list = useRef<HTMLDivElement>(null);
  const close = () => {
    setPad(null);
    // The key that opened it may be gone with its test.
    setTimeout(() => {
      if (document.activeElement === document.body) list.current?.focus({ preventScroll: true });
    });
  };
  if (open.length === 0 && !pad) return null;
  const stretches = [...new Set(open.map(({ stretch }) => stretch))];
  const shown = whole ? stretches : stretches.slice(0, 1);
  const next = pad && (open.find((each) => keyOf(each) !== keyOf(pad.work)) ?? null);
  return (
    <Panel title={`To be read, in this order (${open.length})`}>
      <div ref={list} tabIndex={-1} className="stack" onPointerEnter={() => void loadPad()}>
        {shown.map((stretch) => (
          <section key={stretch} aria-label={`To be read: ${stretchWords[stretch]}`} className="work-stretch">
            <ol className="work-list">
              {open
                .filter((each) => each.stretch === stretch)
                .map((each) => (
                  <WorkCard
                    key={keyOf(each)}
                    work={each}
                    onEnter={(begin) => setPad({ work: each, begin })}
                  />
                ))}
            </ol>
          </section>
        ))}
      </div>
      {pad && (
        <Suspense fallback={null}>
          <Pad
            key={keyOf(pad.work)}
            work={pad.work}
            begin={pad.begin}
            next={next}
            onGoOn={(work) => setPad({ work, begin: firstStep })}
            onClose={close}
          />
        </Suspense>
      )}
    </Panel>
  );
}

/** A test begins with what is to be set up; where nothing is, the pad goes to what is asked first. */
const firstStep = 'confirmations';
