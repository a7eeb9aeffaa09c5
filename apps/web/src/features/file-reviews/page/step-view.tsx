import type { FileReview, ReviewStep, WholeFile } from '@countercheck/contracts';
import type { ItemVerdict } from '@countercheck/rules';
import { testOutlines } from '@countercheck/measurement';
import { useMemo } from 'react';
import { Quantity } from '../../../components/fields/index.ts';
import { StatusMark, Tag } from '../../../components/marks/index.ts';
import { FactList, Moment } from '../../../components/page/index.ts';
import { RowsTable } from '../../../components/table/index.ts';
import { itemsOf, reportedOf, type ItemInFile } from '../../review/file-parts.ts';
import { Reason } from '../../review/reason.tsx';
import { PhotosBeside } from '../../review/photo-beside.tsx';
import { ReadingBeside } from '../../review/reading-beside.tsx';
import { StoredFigure } from '../../review/stored-figure.tsx';

interface Props {
  review: FileReview;
  step: ReviewStep;
  file: WholeFile;
}

function ReadingStep({ step, items, file }: Props & { items: ItemInFile[] }) {
  const reading = file.readings.find(({ id }) => id === step.readingId);
  if (!reading) return <p>The reading was replaced; load the review again.</p>;
  const own = items.filter(({ readings }) => readings.some((each) => each.reading.id === reading.id));
  const placed = own.flatMap(({ readings }) => readings).find((each) => each.reading.id === reading.id);
  const about = {
    reading,
    measured: placed?.measured ?? file.measured.find((m) => m.readingId === reading.id),
    replaced: placed?.replaced ?? [],
  };
  const reported = [
    ...new Map(own.flatMap(({ verdict }) => reportedOf(verdict)).map((each) => [each.label, each])).values(),
  ];
  const title = testOutlines[reading.test].title;
  const photos = file.photos.filter(
    (photo) =>
      photo.visitId === reading.visitId &&
      (photo.subjectId === reading.subjectId ||
        own.some(({ verdict }) => photo.item === verdict.item && photo.subjectId === verdict.subjectId)),
  );
  return (
    <div className="beside">
      <ReadingBeside {...about} />
      <section aria-label="Installer’s figures and verdict">
        <h4>Installer’s figures</h4>
        {reported.length === 0 ? (
          <p className="soft">None enters this reading’s items.</p>
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
        <h4>Computed again</h4>
        {own.map(({ verdict, difference }) => (
          <p key={`${verdict.item}/${verdict.subjectId}`}>
            <StatusMark status={verdict.status} size="s" /> {verdict.title}: <Reason verdict={verdict} />{' '}
            {difference && <Tag tone="bad">Was stored as {difference.stored}</Tag>}
          </p>
        ))}
        {own.length === 0 && <p className="soft">No item rests on this reading.</p>}
      </section>
      {photos.length > 0 ? (
        <PhotosBeside photos={photos} name={title} />
      ) : (
        <p>
          <Tag tone="brass">No photo</Tag> The visit has none of this place.
        </p>
      )}
    </div>
  );
}

/** What helps to judge one line of the checklist for the whole file. */
function CheckStep({ step, file }: Props) {
  const { house } = file;
  const key = step.step.replace('check:', '');
  if (key === 'house')
    return (
      <FactList
        facts={[
          ['Floor area', <Quantity key="a" kind="floorArea" value={house.conditionedFloorArea} />],
          ['Volume', <Quantity key="v" kind="volume" value={house.conditionedVolume} />],
          ['Bedrooms', house.bedrooms],
          ['Storeys', house.storeys],
          ['Plan', house.plan?.name ?? '–'],
          ['Systems', house.systems.map(({ label }) => label).join(', ')],
          ['Rooms', house.rooms.map(({ label }) => label).join(', ')],
          ['Appliances', house.appliances.map(({ label }) => label).join(', ') || 'None'],
        ]}
      />
    );
  if (key === 'pace')
    return (
      <RowsTable
        caption="Readings and photos in order of time"
        rows={[
          ...file.readings.map((each) => ({
            at: each.takenAt,
            what: testOutlines[each.test].title,
            who: each.takenBy.name,
          })),
          ...file.photos.map((each) => ({
            at: each.takenAt ?? each.addedAt,
            what: 'Photo',
            who: each.addedByName,
          })),
        ].sort((a, b) => a.at.localeCompare(b.at))}
        keyOf={(row) => `${row.at} ${row.what}`}
        columns={[
          { title: 'When', head: true, cell: (row) => <Moment at={row.at} /> },
          { title: 'What', cell: (row) => row.what },
          { title: 'Who', cell: (row) => row.who },
        ]}
      />
    );
  const verdicts = file.verdicts.filter(({ safety, status }) =>
    key === 'safety' ? safety : key === 'complete' ? status !== 'pass' : false,
  );
  if (verdicts.length === 0) return null;
  return (
    <ul className="plain-list stack">
      {verdicts.map((verdict) => (
        <li key={`${verdict.item}/${verdict.subjectId}`}>
          <StatusMark status={verdict.status} size="s" /> {verdict.title}, {verdict.subjectLabel}:{' '}
          <Reason verdict={verdict as unknown as ItemVerdict} />
        </li>
      ))}
    </ul>
  );
}

/** One step of a review with everything that belongs beside it, and what is asked. */
export function StepView({ review, step, file }: Props) {
  const items = useMemo(() => itemsOf(file), [file]);
  const { checklist, findings, automatic } = review;
  const asks =
    step.kind === 'reading'
      ? checklist.reading
      : checklist.file.filter(({ key }) => step.step === `check:${key}`);
  const here = [
    ...findings.filter((each) => each.step === step.step && each.state !== 'struck').map(({ text }) => text),
  ];
  const computed = automatic.filter((each) => each.step === step.step && !here.includes(each.text));
  return (
    <div className="stack">
      {[...here, ...computed.map(({ text }) => text)].map((words) => (
        <p key={words}>
          <Tag tone="bad">Finding</Tag> {words}
        </p>
      ))}
      {step.kind === 'reading' ? (
        <ReadingStep {...{ review, step, file, items }} />
      ) : (
        <CheckStep {...{ review, step, file }} />
      )}
      <ul className="review-asks">
        {asks.map(({ key, title, ask }) => (
          <li key={key}>
            <strong>{title}.</strong> {ask}
          </li>
        ))}
      </ul>
    </div>
  );
}
