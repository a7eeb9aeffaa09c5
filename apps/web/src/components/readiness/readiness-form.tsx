import { Button, SegmentedControl, TextInput } from '@mantine/core';
import type { Readiness } from '@countercheck/contracts';
import { useState } from 'react';
import { readinessWords } from '../../lib/words/scheduling.ts';
import { said } from '../feedback/index.ts';
import { Problem } from '../states/index.ts';
import './readiness.css';

type Point = Readiness['points'][number];
export interface Answer {
  kind: Point['kind'];
  ready: boolean;
  note: string | null;
}

interface ReadinessFormProps {
  readiness: Readiness;
  /** an instant in the words of whoever reads */
  when: (instant: string) => string;
  send: (points: Answer[]) => Promise<unknown>;
}

interface Draft {
  ready: '' | 'yes' | 'no';
  note: string;
}
const draftOf = ({ ready, note }: Point): Draft => ({
  ready: ready === null ? '' : ready ? 'yes' : 'no',
  note: note ?? '',
});

/** The readiness list: every point is answered with yes or not yet, and with a word where it is not. */
export function ReadinessForm({ readiness, when, send }: ReadinessFormProps) {
  const [drafts, setDrafts] = useState(
    () => new Map(readiness.points.map((each) => [each.kind, draftOf(each)])),
  );
  const [problem, setProblem] = useState<unknown>(null);
  const [sending, setSending] = useState(false);
  const set = (kind: Point['kind'], change: Partial<Draft>) =>
    setDrafts((all) => new Map(all).set(kind, { ...(all.get(kind) ?? { ready: '', note: '' }), ...change }));
  const answers = readiness.points.flatMap((point): Answer[] => {
    const { ready, note } = drafts.get(point.kind) ?? draftOf(point);
    return ready === '' ? [] : [{ kind: point.kind, ready: ready === 'yes', note: note.trim() || null }];
  });

  async function submit() {
    setSending(true);
    setProblem(null);
    try {
      await send(answers);
      said('Answers saved');
    } catch (error) {
      setProblem(error);
    } finally {
      setSending(false);
    }
  }

  return (
    <div className="stack">
      <ul className="readiness">
        {readiness.points.map((point) => {
          const { ready, note } = drafts.get(point.kind) ?? draftOf(point);
          const label = readinessWords[point.kind];
          return (
            <li key={point.kind}>
              <span className="readiness-name">{label}</span>
              <SegmentedControl
                size="md"
                aria-label={label}
                value={ready}
                onChange={(value) => set(point.kind, { ready: value as Draft['ready'] })}
                data={[
                  { value: '', label: 'Open' },
                  { value: 'yes', label: 'Yes' },
                  { value: 'no', label: 'Not yet' },
                ]}
              />
              {ready === 'no' && (
                <TextInput
                  label={`What is missing: ${label.toLowerCase()}`}
                  value={note}
                  maxLength={300}
                  onChange={(event) => set(point.kind, { note: event.currentTarget.value })}
                />
              )}
              {point.byName && point.at && (
                <span className="small soft">
                  {point.byName}, {when(point.at)}
                </span>
              )}
            </li>
          );
        })}
        <li>
          <span className="readiness-name">Installer&apos;s figures are in</span>
          <span>
            {readiness.figuresSignedAt
              ? `Signed ${when(readiness.figuresSignedAt)}`
              : 'Not yet; the installer signs them by his own link.'}
          </span>
        </li>
      </ul>
      {problem !== null && <Problem error={problem} />}
      <div>
        <Button size="md" loading={sending} disabled={answers.length === 0} onClick={() => void submit()}>
          Save answers
        </Button>
      </div>
    </div>
  );
}
