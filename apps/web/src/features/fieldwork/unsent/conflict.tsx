import { Button, Textarea } from '@mantine/core';
import { fieldwork, type Reading, type VisitSheet } from '@countercheck/contracts';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Problem } from '../../../components/states/index.ts';
import { call } from '../../../lib/client.ts';
import { keyOf } from '../../../lib/query.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import type { Entry } from '../outbox/entry.ts';
import type { Content } from '../phone/content.ts';
import type { Phone } from '../phone/phone.ts';
import { enteredLines } from '../sheet/entered-lines.ts';
import { standing } from '../sheet/readings.ts';
import { choicesFor, withReason, type Choice } from './choices.ts';

type ReadingContent = Extract<Content, { kind: 'reading' }>;

function Lines({ title, reading }: { title: string; reading: Pick<Reading, 'test' | 'raw' | 'entered'> }) {
  const system = useUnitSystem();
  return (
    <section aria-label={title}>
      <h3>{title}</h3>
      <dl className="entered">
        {enteredLines(reading as Reading, system).map(({ label, text }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

/** Mine and theirs, side by side, where another device wrote the same reading. */
function BothReadings({ content, now }: { content: ReadingContent; now: VisitSheet | null }) {
  const { test, subjectId, id } = content.body;
  const theirs = now && standing(now.readings, test, subjectId).findLast((each) => each.id !== id);
  return (
    <div className="both">
      <Lines title="On this phone" reading={content.body} />
      {theirs && <Lines title={`At the service, by ${theirs.takenBy.name}`} reading={theirs} />}
    </div>
  );
}

/** An entry that the service would not take: what it found, both values, and what a person can decide. */
export function Conflict({ entry, phone }: { entry: Entry<Content>; phone: Phone }) {
  const { content, refusal } = entry;
  const [reason, setReason] = useState('');
  const [problem, setProblem] = useState<unknown>(null);
  const args = { params: { id: content.visitId } };
  const asked = useQuery<VisitSheet>({
    queryKey: [...keyOf(fieldwork.sheet, args), 'now'],
    queryFn: ({ signal }) => call(fieldwork.sheet, args, { signal }),
    retry: false,
  });
  if (!refusal) return null;
  const now = asked.data ?? null;
  const choices = choicesFor(entry, now);

  async function choose(choice: Choice) {
    setProblem(null);
    try {
      if (choice.content === null) await phone.withdraw(entry.id);
      else
        await phone.decide(
          entry.id,
          choice.needsReason ? withReason(choice.content, reason.trim()) : choice.content,
        );
      // The house as it is now is what is seen from here on.
      if (now) await phone.keepSheet(now);
    } catch (error) {
      setProblem(error);
    }
  }

  return (
    <div className="stack conflict" role="group" aria-label="To be decided">
      <p>
        <strong>{refusal.title}</strong>
      </p>
      {refusal.fields.length > 0 ? (
        <ul>
          {refusal.fields.map(({ path, message }) => (
            <li key={path}>{message}</li>
          ))}
        </ul>
      ) : (
        refusal.detail && <p>{refusal.detail}</p>
      )}
      {content.kind === 'reading' && <BothReadings content={content} now={now} />}
      {choices.some(({ needsReason }) => needsReason) && (
        <Textarea
          size="md"
          label="Why does mine replace it?"
          autosize
          maxLength={500}
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
      )}
      {problem !== null && <Problem error={problem} />}
      <div className="big-actions">
        {choices.map((choice) => (
          <Button
            key={choice.label}
            size="lg"
            variant="default"
            disabled={asked.isPending || (choice.needsReason && reason.trim() === '')}
            onClick={() => void choose(choice)}
          >
            {choice.label}
          </Button>
        ))}
      </div>
    </div>
  );
}
