import { testDefinition } from '@countercheck/measurement';
import { Tag } from '../../components/marks/index.ts';
import { DateText, Moment } from '../../components/page/index.ts';
import { Results } from '../../components/working/index.ts';
import { FitBeside } from './fit-beside.tsx';
import type { ReadingInFile } from './file-parts.ts';

/** A reading as the quality manager checks it: result, instrument on that day, what was typed, working. */
export function ReadingBeside({ reading, measured, replaced }: ReadingInFile) {
  const { instrument, entered } = reading;
  const note = reading.conditions['note'];
  const ticked = Object.values(reading.raw.confirmations).filter(Boolean).length;
  const test = testDefinition(reading.test);
  return (
    <article className="beside-reading" aria-label={test.title}>
      <h4>{test.title}</h4>
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
      <FitBeside reading={reading} />
      <details className="beside-fold">
        <summary>As typed</summary>
        <ul>
          {Object.entries(entered).map(([path, { text, unit }]) => (
            <li key={path}>
              {path.replace(/values\./, '').replaceAll('.', ' ')}: {text} {unit}
            </li>
          ))}
          <li>
            Confirmed before the reading: {ticked} of {test.confirmations.length}
          </li>
        </ul>
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
