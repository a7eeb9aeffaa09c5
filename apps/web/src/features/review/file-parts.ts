import type { Photo, Reading, WholeFile } from '@countercheck/contracts';
import type { ItemVerdict } from '@countercheck/rules';

export type MeasuredReading = WholeFile['measured'][number];
export interface ReadingInFile {
  reading: Reading;
  measured: MeasuredReading | undefined;
  /** what it replaced, the newest first */
  replaced: Reading[];
}
export interface ItemInFile {
  verdict: ItemVerdict;
  readings: ReadingInFile[];
  photos: Photo[];
  difference: WholeFile['differences'][number] | undefined;
}

const order = ['fail', 'waiting', 'pass', 'exempt', 'not-applicable'];

/** The file by item: what was read, with what, and how it stands; what needs a look comes first. */
export function itemsOf(
  file: Pick<WholeFile, 'verdicts' | 'readings' | 'photos' | 'measured' | 'differences'>,
): ItemInFile[] {
  const readings = new Map(file.readings.map((reading) => [reading.id, reading]));
  const measured = new Map(file.measured.map((each) => [each.readingId, each]));
  const replacedBy = (reading: Reading): Reading[] => {
    const chain: Reading[] = [];
    for (let id = reading.supersedesId; id !== null;) {
      const found = readings.get(id);
      if (!found || chain.includes(found)) break;
      chain.push(found);
      id = found.supersedesId;
    }
    return chain;
  };
  const items = (file.verdicts as unknown as ItemVerdict[]).map((verdict) => ({
    verdict,
    readings: verdict.trace.readingIds.flatMap((id) => {
      const reading = readings.get(id);
      return reading ? [{ reading, measured: measured.get(id), replaced: replacedBy(reading) }] : [];
    }),
    photos: file.photos.filter(
      ({ item, subjectId }) => item === verdict.item && subjectId === verdict.subjectId,
    ),
    difference: file.differences.find(
      ({ item, subjectId }) => item === verdict.item && subjectId === verdict.subjectId,
    ),
  }));
  const rank = ({ verdict, difference }: ItemInFile) => (difference ? -1 : order.indexOf(verdict.status));
  return items.sort((a, b) => rank(a) - rank(b) || Number(b.verdict.safety) - Number(a.verdict.safety));
}

export interface ReportedInput {
  label: string;
  value: number | null;
  unit: string | null;
}

/** The installer's figures that entered a verdict. */
export function reportedOf({ trace }: ItemVerdict): ReportedInput[] {
  return trace.inputs
    .filter(({ from }) => from === 'reported')
    .map(({ label, value, unit }) => ({ label, unit, value: typeof value === 'number' ? value : null }));
}

/** Photos that belong to no item of the file. */
export function otherPhotos(file: Pick<WholeFile, 'photos' | 'verdicts'>): Photo[] {
  const known = new Set(file.verdicts.map(({ item, subjectId }) => `${item}/${subjectId}`));
  return file.photos.filter(({ item, subjectId }) => !known.has(`${item}/${subjectId}`));
}
