import { Button } from '@mantine/core';
import { testDefinition } from '@countercheck/measurement';
import type { ItemVerdict } from '@countercheck/rules';
import { useEffect, useId, useRef, useState } from 'react';
import { catchFocus } from '../../../lib/focus.ts';
import { useUndo } from '../data/undo.ts';
import { InstallersFigure } from '../entry/installers-figure.tsx';
import { isHidden } from '../entry/hidden.ts';
import { reportedFor } from '../entry/reported.ts';
import { TestForm } from '../entry/test-form.tsx';
import { outcomesOf } from './outcomes.ts';
import { ReadingCard } from './reading-card.tsx';
import { replacedBy, standing } from './readings.ts';
import { useSheetView } from './sheet-context.ts';
import type { TestPlace } from './test-places.ts';
import { fileOf } from './verdicts.ts';

interface Props {
  place: TestPlace;
  verdict: ItemVerdict;
  /** an item with a single test shows its form at once */
  alone: boolean;
}

/** One test on one part of the house: how it is done, what was reported, what was read, and the form. */
export function TestSection({ place, verdict, alone }: Props) {
  const { sheet, mayRecord } = useSheetView();
  const outcomes = outcomesOf(sheet);
  const { test: key, subject } = place;
  const test = testDefinition(key);
  const readings = standing(sheet.readings, key, subject.id);
  const ofThisVisit = readings.some(({ visitId }) => visitId === sheet.visit.id);
  const undoOf = useUndo();
  const headingId = useId();
  const [correcting, setCorrecting] = useState<string | null>(null);
  const [open, setOpen] = useState(alone);
  const corrected = readings.find(({ id }) => id === correcting) ?? null;
  const asksNew = mayRecord && !ofThisVisit && !corrected;
  // The button that opened a form goes with it, and so does the one that recorded it.
  const box = useRef<HTMLElement>(null);
  const shown = [open, correcting, readings.length].join();
  const shownBefore = useRef(shown);
  useEffect(() => {
    if (shownBefore.current !== shown) catchFocus(box.current?.querySelector('form') ?? box.current);
    shownBefore.current = shown;
  }, [shown]);
  const done = () => {
    setCorrecting(null);
    setOpen(false);
  };
  return (
    <section ref={box} tabIndex={-1} className="test" aria-label={`${test.title}, ${subject.label}`}>
      <h3 id={headingId}>
        {test.title} <span className="soft">– {subject.label}</span>
      </h3>
      <p className="soft">{test.how}</p>
      <InstallersFigure
        lines={reportedFor(fileOf(sheet), key, subject)}
        hidden={isHidden(sheet.file, key, subject.id)}
      />
      {readings.map((reading) => {
        const undo = mayRecord && correcting === null ? undoOf(reading) : null;
        return (
          <ReadingCard
            key={reading.id}
            reading={reading}
            outcome={outcomes.get(reading.id)}
            instrument={fileOf(sheet).readings.find(({ id }) => id === reading.id)?.instrument ?? null}
            replaced={replacedBy(reading, sheet.readings)}
            onCorrect={
              mayRecord && reading.visitId === sheet.visit.id && correcting === null
                ? () => setCorrecting(reading.id)
                : null
            }
            onUndo={
              undo &&
              (() => {
                setCorrecting(reading.supersedesId);
                setOpen(true);
                void undo();
              })
            }
          />
        );
      })}
      {readings.length === 0 && !mayRecord && <p className="soft">No reading is recorded.</p>}
      {corrected && (
        <TestForm
          key={corrected.id}
          sheet={sheet}
          place={place}
          verdict={verdict}
          corrects={corrected}
          onRecorded={done}
          onCancel={() => setCorrecting(null)}
        />
      )}
      {asksNew && open && (
        <TestForm
          sheet={sheet}
          place={place}
          verdict={verdict}
          corrects={null}
          onRecorded={done}
          {...(alone ? {} : { onCancel: () => setOpen(false) })}
        />
      )}
      {asksNew && !open && (
        <Button size="lg" variant="default" aria-describedby={headingId} onClick={() => setOpen(true)}>
          {readings.length > 0 ? 'Read again on this visit' : 'Begin this test'}
        </Button>
      )}
    </section>
  );
}
