import { assess, inScope, type FileReading } from '@countercheck/assessment';
import type { Me, Photo, Reading, VisitSheet } from '@countercheck/contracts';
import { clockOf } from '../../../lib/dates.ts';
import { factsOn } from '../../../lib/instrument-facts.ts';
import { evaluatorOf } from '../entry/preview.ts';
import { fileOf } from '../sheet/verdicts.ts';
import type { Content, PhotoContent } from './content.ts';
import { visitWith, type Entered } from './local-visit.ts';

type Person = Pick<Me, 'id' | 'name'>;
type ReadingContent = Extract<Content, { kind: 'reading' }>;

function readingOf(
  { body }: ReadingContent,
  { madeAt }: Entered,
  sheet: VisitSheet,
  me: Person,
  timezone: string,
): Reading {
  const instrument = sheet.instruments.find(({ id }) => id === body.instrumentId);
  const facts = instrument && factsOn(instrument, clockOf(body.takenAt, timezone).date);
  return {
    id: body.id,
    visitId: sheet.visit.id,
    test: body.test,
    subjectId: body.subjectId,
    raw: body.raw,
    entered: body.entered,
    conditions: body.conditions ?? {},
    instrument: instrument
      ? {
          id: instrument.id,
          label: instrument.label,
          serial: instrument.serial,
          calibratedOn: facts?.calibratedOn ?? null,
          dueOn: facts?.dueOn ?? null,
        }
      : null,
    takenBy: { id: me.id, name: me.name },
    takenAt: body.takenAt,
    receivedAt: madeAt,
    supersedesId: body.supersedesId ?? null,
    supersedeReason: body.supersedeReason ?? null,
    supersededById: null,
    // What the service will hold it against, unless a person decides otherwise.
    figuresRevision: sheet.figuresRevision,
  };
}

/** The reading as the assessment takes it, beside those it does not replace. */
function inFile(readings: FileReading[], added: Reading, sheet: VisitSheet, timezone: string): FileReading[] {
  const day = clockOf(added.takenAt, timezone).date;
  const instrument = sheet.instruments.find(({ id }) => id === added.instrument?.id);
  const fresh: FileReading = {
    id: added.id,
    test: added.test,
    subjectId: added.subjectId,
    raw: added.raw,
    takenOn: day,
    takenAt: new Date(added.takenAt).toISOString(),
    visitId: added.visitId,
    instrument: instrument ? factsOn(instrument, day) : null,
    ...(typeof added.figuresRevision === 'number' ? { figuresRevision: added.figuresRevision } : {}),
  };
  return [...readings.filter((each) => each.id !== added.supersedesId), fresh];
}

function photoOf(photo: PhotoContent, { madeAt }: Entered, visitId: string, me: Person): Photo {
  return {
    id: photo.id,
    fileId: photo.id,
    visitId,
    item: photo.item ?? null,
    subjectId: photo.subjectId ?? null,
    failedItemId: null,
    caption: photo.caption ?? null,
    takenAt: photo.takenAt,
    addedByName: me.name,
    addedAt: madeAt,
    width: null,
    height: null,
    mediaType: 'image/jpeg',
    size: photo.size,
    sha256: photo.sha256,
  };
}

/** The verdicts anew, by the same packages as on the server. A second measurement is never judged. */
function judged(sheet: VisitSheet): VisitSheet {
  const evaluate = sheet.visit.kind === 'quality' ? null : evaluatorOf(sheet.ruleSet);
  if (!evaluate) return sheet;
  const { scorecard } = assess(fileOf(sheet), evaluate);
  return {
    ...sheet,
    verdicts: inScope(sheet.visit, scorecard.verdicts) as unknown as VisitSheet['verdicts'],
    releasable: scorecard.releasable,
    stopWork: scorecard.stopWork,
  };
}

function withReading(sheet: VisitSheet, reading: Reading, timezone: string): VisitSheet {
  if (sheet.readings.some(({ id }) => id === reading.id)) return sheet;
  const readings = sheet.readings.map((each) =>
    each.id === reading.supersedesId ? { ...each, supersededById: reading.id } : each,
  );
  const file = { ...fileOf(sheet) };
  file.readings = inFile(file.readings, reading, sheet, timezone);
  return {
    ...sheet,
    readings: [...readings, reading],
    file: file as unknown as VisitSheet['file'],
  };
}

/**
 * The sheet as it is with what was entered on this phone, whether or not the service has it yet: readings, photos,
 * the state of the visit, and every verdict computed here. What the sheet has already is not added again.
 */
export function withEntries(
  sheet: VisitSheet,
  entries: readonly Entered[],
  me: Person,
  timezone: string,
): VisitSheet {
  let next = sheet;
  for (const entry of entries) {
    const { content } = entry;
    if (content.visitId !== sheet.visit.id) continue;
    if (content.kind === 'reading')
      next = withReading(next, readingOf(content, entry, next, me, timezone), timezone);
    else if (content.kind === 'photo') {
      if (!next.photos.some(({ id }) => id === content.photo.id))
        next = { ...next, photos: [...next.photos, photoOf(content.photo, entry, sheet.visit.id, me)] };
    }
  }
  const visit = visitWith(next.visit, entries);
  if (visit !== next.visit) next = { ...next, visit };
  return next.readings === sheet.readings ? next : judged(next);
}
