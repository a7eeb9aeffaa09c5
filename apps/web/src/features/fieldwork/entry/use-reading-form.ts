import type { Reading, VisitSheet } from '@countercheck/contracts';
import type { ItemVerdict } from '@countercheck/rules';
import { useMemo, useState } from 'react';
import { fieldProblems } from '../../../lib/problem.ts';
import { useLater } from '../../../lib/later.ts';
import {
  allConfirmed,
  hasEntries,
  problemsByPath,
  readForm,
  serverPaths,
} from '../../../components/reading-form/index.ts';
import { useRecordReading } from '../data/deeds.ts';
import type { TestPlace } from '../sheet/test-places.ts';
import { timedBy } from './draft.ts';
import { isHidden } from './hidden.ts';
import { laterPreview } from './later-preview.ts';
import { useFormDraft } from './use-form-draft.ts';

interface Options {
  sheet: VisitSheet;
  place: TestPlace;
  verdict: Pick<ItemVerdict, 'item' | 'subjectId'>;
  /** the reading to correct; null for a new one */
  corrects: Reading | null;
  /** false while nobody looks at the verdict: the whole house is judged for it */
  judged?: boolean;
  /** with the id of the reading */
  onRecorded(id: string): void;
}

/** One test's form: what is typed, what it comes to, what is wrong with it, and recording it. */
export function useReadingForm({ sheet, place, verdict, corrects, judged = true, onRecorded }: Options) {
  const { test, day, offered, instrument, draft, resumed, change, stamp, clear } = useFormDraft(
    sheet,
    place,
    corrects,
  );
  const [attempted, setAttempted] = useState(false);
  const record = useRecordReading(sheet, `${test.title}, ${place.subject.label}`);

  const read = useMemo(() => readForm(test, draft), [test, draft]);
  const outcome = useMemo(() => test.compute(read.raw, instrument), [test, read, instrument]);
  // A result can be looked at before everything is ticked; only recording waits for the ticks.
  const ticked = useMemo(() => allConfirmed(test, read.raw), [test, read]);
  const result = useMemo(() => test.compute(ticked, instrument), [test, ticked, instrument]);
  const hidden = isHidden(sheet.file, test.key, place.subject.id);
  const { part: judging } = useLater(laterPreview);
  const preview = useMemo(() => {
    if (!judged || !judging || !result.ok || hidden) return null;
    const reading = {
      id: draft.id,
      test: test.key,
      subjectId: place.subject.id,
      raw: ticked,
      instrument,
      takenOn: day,
      visitId: sheet.visit.id,
    };
    return judging.previewVerdict(sheet, verdict, reading, corrects?.id ?? null);
  }, [
    judged,
    judging,
    result,
    hidden,
    draft.id,
    test,
    place,
    ticked,
    instrument,
    day,
    sheet,
    verdict,
    corrects,
  ]);

  const found = problemsByPath(outcome.ok ? [] : outcome.problems, read.unreadable, attempted);
  const reasonMissing = corrects !== null && draft.supersedeReason.trim() === '';
  const problems: Record<string, string> = {
    ...serverPaths(fieldProblems(record.error)),
    ...found,
    ...(attempted && reasonMissing
      ? { supersedeReason: 'Say in a few words why the reading is corrected.' }
      : {}),
  };

  async function save(): Promise<boolean> {
    setAttempted(true);
    if (!outcome.ok || reasonMissing || Object.keys(read.unreadable).length > 0) return false;
    const now = new Date().toISOString();
    const takenAt = stamp(now).takenAt ?? now;
    // A row that was taken out again takes its time with it.
    const timed = Object.fromEntries(
      Object.entries(timedBy(draft, Date.parse(takenAt))).filter(
        ([path]) => path === '' || path in read.entered,
      ),
    );
    try {
      await record.mutateAsync({
        id: draft.id,
        test: test.key,
        subjectId: place.subject.id,
        raw: read.raw,
        entered: read.entered,
        conditions: {
          ...(draft.note.trim() === '' ? {} : { note: draft.note.trim() }),
          ...(Object.keys(timed).length === 0 ? {} : { averagedSeconds: timed }),
        },
        instrumentId: draft.instrumentId,
        takenAt,
        supersedesId: corrects?.id ?? null,
        supersedeReason: corrects ? draft.supersedeReason.trim() : null,
      });
    } catch {
      return false;
    }
    clear();
    onRecorded(draft.id);
    return true;
  }

  return {
    test,
    offered,
    instrument,
    draft,
    resumed,
    change,
    clear,
    result,
    ticked,
    unticked: result.ok && !outcome.ok,
    hidden,
    preview,
    problems,
    /** where something is missing or cannot be right, by path */
    wrong: outcome.ok ? Object.keys(read.unreadable) : outcome.problems.map(({ path }) => path),
    touched: hasEntries(draft),
    attempted,
    error: record.error,
    saving: record.isPending,
    save,
  };
}
