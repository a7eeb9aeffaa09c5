import { Button } from '@mantine/core';
import { CloseMark, StatusMark, Tag } from '../../components/marks/index.ts';
import { useVerdictIn } from '../../lib/units/verdict-in.ts';
import { reportedOf, type ItemInFile } from './file-parts.ts';
import { Grounds } from './grounds.tsx';
import { PhotosBeside } from './photo-beside.tsx';
import { ReadingBeside } from './reading-beside.tsx';
import { StoredFigure } from './stored-figure.tsx';

interface Props {
  entry: ItemInFile;
  startsOpen: boolean;
  onFinding: (() => void) | null;
}

/** An item of the file: reading, installer's figure, photos and verdict side by side. */
export function ItemRow({ entry, startsOpen, onFinding }: Props) {
  const { readings, photos, difference } = entry;
  const verdict = useVerdictIn(entry.verdict);
  const reported = reportedOf(verdict);
  const name = `${verdict.title}, ${verdict.subjectLabel}`;
  return (
    <details className="file-item" open={startsOpen}>
      <summary>
        <span className="opens">
          <strong>{verdict.title}</strong> <span className="soft">· {verdict.subjectLabel}</span>
        </span>
        <span className="file-item-marks">
          {difference && <Tag tone="bad">Comes out differently</Tag>}
          {verdict.safety && <Tag tone="brass">Safety</Tag>}
          <CloseMark verdict={verdict} />
          <StatusMark status={verdict.status} size="s" />
        </span>
        <span className="file-item-reason">
          {verdict.reason} {verdict.closeToLimit && verdict.closeWords}
        </span>
      </summary>
      <div className="stack file-item-body">
        {difference && (
          <p>
            Stored as <strong>{difference.stored}</strong>, computed again it is{' '}
            <strong>{difference.again}</strong>.
          </p>
        )}
        <div className="beside">
          <section aria-label={`Installer’s figures: ${name}`}>
            <h4>Installer’s figures</h4>
            {reported.length === 0 ? (
              <p className="soft">None enters this item.</p>
            ) : (
              <dl className="beside-figures">
                {reported.map(({ label, value, unit }) => (
                  <div key={label}>
                    <dt className="first-upper">{label}</dt>
                    <dd>
                      <StoredFigure value={value} unit={unit} />
                    </dd>
                  </div>
                ))}
              </dl>
            )}
          </section>
          {readings.map((each) => (
            <ReadingBeside key={each.reading.id} {...each} />
          ))}
          {readings.length === 0 && <p className="soft">No reading enters this item.</p>}
          <PhotosBeside photos={photos} name={name} />
        </div>
        <Grounds verdict={verdict} />
        {onFinding && (
          <div>
            <Button variant="default" onClick={onFinding} aria-label={`Note a finding: ${name}`}>
              Note a finding
            </Button>
          </div>
        )}
      </div>
    </details>
  );
}
