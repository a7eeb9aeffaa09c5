import { Button } from '@mantine/core';
import type { Reading } from '@countercheck/contracts';
import type { ReadingOutcome } from '@countercheck/assessment';
import type { InstrumentFacts } from '@countercheck/measurement';
import { Tag } from '../../../components/marks/index.ts';
import { DateText, Moment } from '../../../components/page/index.ts';
import { EnvelopeFit } from '../../../components/envelope-fit/index.ts';
import { Results } from '../../../components/working/index.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import { enteredLines } from './entered-lines.ts';

function Entered({ reading }: { reading: Reading }) {
  const system = useUnitSystem();
  const note = reading.conditions['note'];
  return (
    <>
      <dl className="entered">
        {enteredLines(reading, system).map(({ label, text }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      {typeof note === 'string' && <p className="soft">Note: {note}</p>}
    </>
  );
}

function Origin({ reading }: { reading: Reading }) {
  const { instrument } = reading;
  return (
    <p className="soft small">
      {reading.takenBy.name}, <Moment at={reading.takenAt} />
      {instrument && (
        <>
          {' · '}
          {instrument.label} ({instrument.serial}), calibrated <DateText date={instrument.calibratedOn} />,
          due <DateText date={instrument.dueOn} />
        </>
      )}
    </p>
  );
}

interface Props {
  reading: Reading;
  outcome: ReadingOutcome | undefined;
  /** as it was on the day, to draw what it read */
  instrument: InstrumentFacts | null;
  replaced: readonly Reading[];
  onCorrect: (() => void) | null;
  /** takes back what has not been sent */
  onUndo: (() => void) | null;
}

/** A recorded reading: what it came to, what was typed, how it was worked out, and what it replaced. */
export function ReadingCard({ reading, outcome, instrument, replaced, onCorrect, onUndo }: Props) {
  return (
    <article className="reading" aria-label="Recorded reading">
      {outcome && (
        <Results
          test={reading.test}
          values={outcome.values}
          steps={outcome.steps}
          remarks={outcome.remarks}
        />
      )}
      <EnvelopeFit test={reading.test} raw={reading.raw} instrument={instrument} />
      {outcome && !outcome.counts && (
        <p>
          <Tag tone="bad">Does not count</Tag> {outcome.whyNot}
        </p>
      )}
      <Origin reading={reading} />
      <details className="fold">
        <summary>As entered</summary>
        <Entered reading={reading} />
      </details>
      {replaced.length > 0 && (
        <details className="fold">
          <summary>Replaced readings ({replaced.length})</summary>
          {[reading, ...replaced].slice(0, -1).map((newer, i) => (
            <div key={newer.id} className="replaced">
              <p>
                Replaced because: <strong>{newer.supersedeReason}</strong>
              </p>
              {replaced[i] && <Entered reading={replaced[i]} />}
              {replaced[i] && <Origin reading={replaced[i]} />}
            </div>
          ))}
        </details>
      )}
      {onUndo ? (
        <Button size="lg" variant="default" onClick={onUndo}>
          Undo: it is not sent yet
        </Button>
      ) : (
        onCorrect && (
          <Button size="lg" variant="default" onClick={onCorrect}>
            Correct this reading
          </Button>
        )
      )}
    </article>
  );
}
