import { subjectsOf } from '@countercheck/assessment';
import type { Reading, VisitSheet } from '@countercheck/contracts';
import { format, type UnitSystem } from '@countercheck/measurement';
import { reportedFigures } from '@countercheck/rules';
import { showDay, showMoment, showTime } from '../../../lib/dates.ts';
import type { Content, FiguresSeen } from '../phone/content.ts';
import { enteredLines } from '../sheet/entered-lines.ts';
import { fileOf } from '../sheet/verdicts.ts';

/** One thing that differs or is to be compared: as it is on the phone and as it is at the service. */
export interface Side {
  label: string;
  here: string;
  there: string;
  differs: boolean;
}

const side = (label: string, here: string, there: string): Side => ({
  label,
  here,
  there,
  differs: here !== there,
});

type Times = Pick<VisitSheet['visit'], 'startsAt' | 'endsAt'>;
const span = ({ startsAt, endsAt }: Times, zone: string) =>
  `${showDay(startsAt, zone)}, ${showTime(startsAt, zone)}–${showTime(endsAt, zone)}`;

const revision = (number: number | null) => (number === null ? 'none signed' : `revision ${number}`);

/** The installer's figures of both revisions: those that the reading is held against, and all that have changed. */
function figureSides(content: Content, seen: FiguresSeen, now: VisitSheet, system: UnitSystem): Side[] {
  const ofReading = (figure: (typeof reportedFigures)[number], subjectId: string) =>
    content.kind === 'reading' &&
    content.body.subjectId === subjectId &&
    figure.tests.some((test) => test === content.body.test);
  return subjectsOf(fileOf(now)).flatMap(({ id, kind, label }) =>
    reportedFigures
      .filter(({ subject }) => subject === kind)
      .flatMap((figure) => {
        const kept = now.file.hidden.some(
          ({ test, subjectId }) => subjectId === id && figure.tests.some((each) => each === test),
        );
        const shown = (figures: FiguresSeen) => {
          const value = figures[id]?.[figure.key] ?? null;
          if (value !== null) return format(figure.quantity, value, system);
          return kept ? 'hidden until your reading has arrived' : 'not reported';
        };
        const found = side(`${figure.label}, ${label}`, shown(seen), shown(now.file.reported));
        return found.differs || ofReading(figure, id) ? [found] : [];
      }),
  );
}

/** What has changed since something was entered: as the rater had it, and as it is now. */
export function changedSides(content: Content, now: VisitSheet, zone: string, system: UnitSystem): Side[] {
  if (content.kind === 'photo' || !content.body.seen) return [];
  const { seen } = content.body;
  const times = side('Visit', span(seen, zone), span(now.visit, zone));
  const signed = side('Installer’s figures', revision(seen.figuresRevision), revision(now.figuresRevision));
  const figures = content.kind === 'not-ready' ? undefined : content.figures;
  return [
    ...(times.differs ? [times] : []),
    ...(signed.differs ? [signed, ...(figures ? figureSides(content, figures, now, system) : [])] : []),
  ];
}

type Typed = Pick<Reading, 'test' | 'raw' | 'entered' | 'takenAt'>;

/** Two readings of the same thing, number by number. */
export function readingSides(
  here: Typed & { instrument: string },
  there: Typed & { instrument: string },
  zone: string,
  system: UnitSystem,
): Side[] {
  const mine = enteredLines(here, system);
  const theirs = enteredLines(there, system);
  const labels = [...new Set([...mine, ...theirs].map(({ label }) => label))];
  const text = (lines: typeof mine, wanted: string) =>
    lines.find(({ label }) => label === wanted)?.text ?? '–';
  return [
    ...labels.map((label) => side(label, text(mine, label), text(theirs, label))),
    side('Instrument', here.instrument, there.instrument),
    side('Read at', showMoment(here.takenAt, zone), showMoment(there.takenAt, zone)),
  ];
}
