import { testOutlines } from '@countercheck/measurement';
import { useState } from 'react';
import { Tag } from '../../components/marks/index.ts';
import { DateText, Moment } from '../../components/page/index.ts';
import { Results } from '../../components/working/index.ts';
import { onDemand } from '../../lib/on-demand.tsx';
import type { ReadingInFile } from './file-parts.ts';

const FitBeside = onDemand(async () => (await import('./fit-beside.tsx')).FitBeside);
const AsTyped = onDemand(async () => (await import('./as-typed.tsx')).AsTyped);

/** A reading as the quality manager checks it: result, instrument on that day, what was typed, working. */
export function ReadingBeside({ reading, measured, replaced }: ReadingInFile) {
  const { instrument } = reading;
  const note = reading.conditions['note'];
  const { title } = testOutlines[reading.test];
  const [typedShown, setTypedShown] = useState(false);
  return (
    <article className="beside-reading" aria-label={title}>
      <h4>{title}</h4>
      <p>
        {reading.takenBy.name}, <Moment at={reading.takenAt} />
      </p>
      {instrument ? (
        <p className="soft">
          {instrument.label} ({instrument.serial}): calibrated <DateText date={instrument.calibratedOn} />,
          due <DateText date={instrument.dueOn} />
        </p>
      ) : (
        <p className="soft">No instrument recorded.</p>
      )}
      {measured && !measured.counts && (
        <p>
          <Tag tone="bad">Does not count</Tag> {measured.whyNot}
        </p>
      )}
      {measured && (
        <Results
          test={reading.test}
          values={measured.values}
          steps={measured.steps}
          remarks={measured.remarks}
        />
      )}
      {reading.test === 'envelope-leakage' && <FitBeside reading={reading} />}
      <details className="beside-fold" onToggle={(event) => setTypedShown(event.currentTarget.open)}>
        <summary>As typed</summary>
        {typedShown && <AsTyped reading={reading} />}
      </details>
      {typeof note === 'string' && <p className="soft">Rater’s note: {note}</p>}
      {replaced.length > 0 && (
        <details className="beside-fold">
          <summary>Replaced readings ({replaced.length})</summary>
          <ul>
            {[reading, ...replaced].slice(0, -1).map((newer, i) => (
              <li key={newer.id}>
                <Moment at={replaced[i]?.takenAt ?? null} />:{' '}
                {Object.values(replaced[i]?.entered ?? {})
                  .map(({ text, unit }) => `${text} ${unit}`)
                  .join(', ')}
                ; replaced because {newer.supersedeReason}
              </li>
            ))}
          </ul>
        </details>
      )}
    </article>
  );
}
