import { Button, Checkbox, Textarea } from '@mantine/core';
import { fieldwork, type VisitSheet } from '@countercheck/contracts';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Problem } from '../../../components/states/index.ts';
import { call } from '../../../lib/client.ts';
import { showMoment } from '../../../lib/dates.ts';
import { keyOf } from '../../../lib/query.ts';
import { useMe } from '../../../lib/session.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import { useTakeBack } from '../data/undo.ts';
import type { Entry } from '../outbox/entry.ts';
import type { Content } from '../phone/content.ts';
import type { Phone } from '../phone/phone.ts';
import { standing } from '../sheet/readings.ts';
import { changedSides, readingSides } from './both-sides.ts';
import { choicesFor, sameChange, withReason, type Choice } from './choices.ts';
import { SideBySide } from './side-by-side.tsx';

type ReadingContent = Extract<Content, { kind: 'reading' }>;

/** Mine and theirs, side by side, where another device wrote the same reading. */
function BothReadings({ content, now }: { content: ReadingContent; now: VisitSheet }) {
  const { timezone } = useMe().company;
  const system = useUnitSystem();
  const { body } = content;
  const theirs = standing(now.readings, body.test, body.subjectId).findLast(({ id }) => id !== body.id);
  if (!theirs) return null;
  const named = (instrument: { label: string; serial: string } | null | undefined) =>
    instrument ? `${instrument.label} (${instrument.serial})` : 'none named';
  const mine = now.instruments.find(({ id }) => id === body.instrumentId);
  return (
    <SideBySide
      name="The two readings"
      here="On this phone"
      there={`At the service, by ${theirs.takenBy.name}`}
      sides={readingSides(
        { ...body, instrument: named(mine) },
        { ...theirs, instrument: named(theirs.instrument) },
        timezone,
        system,
      )}
    />
  );
}

function Changed({ content, now }: { content: Content; now: VisitSheet }) {
  const { timezone } = useMe().company;
  const sides = changedSides(content, now, timezone, useUnitSystem());
  return <SideBySide name="What has changed" here="When you entered it" there="Now" sides={sides} />;
}

/** An entry that the service would not take: what it found, both values, and what a person can decide. */
export function Conflict({ entry, phone }: { entry: Entry<Content>; phone: Phone }) {
  const { content, refusal } = entry;
  const { timezone } = useMe().company;
  const [reason, setReason] = useState('');
  const [forAll, setForAll] = useState(true);
  const [problem, setProblem] = useState<unknown>(null);
  const args = { params: { id: content.visitId } };
  const asked = useQuery<VisitSheet>({
    queryKey: [...keyOf(fieldwork.sheet, args), 'now'],
    queryFn: ({ signal }) => call(fieldwork.sheet, args, { signal }),
    retry: false,
  });
  const takeBack = useTakeBack();
  if (!refusal) return null;
  const now = asked.data ?? null;
  const known = {
    clockAhead: phone.state.clockAhead,
    elsewhere: phone
      .allSheets()
      .filter(({ visit }) => visit.house.id === entry.lane && visit.id !== content.visitId)
      .filter(({ visit: { state } }) => state === 'booked' || state === 'in_progress')
      .map((sheet) => ({ sheet, when: showMoment(sheet.visit.startsAt, timezone) })),
  };
  const choices = choicesFor(entry, now, known);
  const others = sameChange(entry, phone.state.entries);
  const sameAs =
    { 'changed-meanwhile': 'from before the change', 'invalid-input': 'read by the same clock' }[
      refusal.code
    ] ?? 'entered for this visit';

  async function choose(choice: Choice) {
    setProblem(null);
    try {
      if (choice.content === null) await (choice.givesWay ? phone.withdraw(entry.id) : takeBack(entry));
      else {
        // First those that wait behind it: the house goes on with the one that was refused.
        for (const other of forAll ? others : []) {
          const same = choicesFor({ ...other, refusal }, now, known).find(
            ({ label }) => label === choice.label,
          );
          if (same?.content) await phone.decide(other.id, same.content);
        }
        await phone.decide(
          entry.id,
          choice.needsReason ? withReason(choice.content, reason.trim()) : choice.content,
        );
      }
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
      {now && refusal.code === 'changed-meanwhile' && <Changed content={content} now={now} />}
      {now && content.kind === 'reading' && <BothReadings content={content} now={now} />}
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
      {others.length > 0 && (
        <Checkbox
          size="md"
          label={
            others.length === 1
              ? `Also for the other entry of this house ${sameAs}`
              : `Also for the ${others.length} other entries of this house ${sameAs}`
          }
          checked={forAll}
          onChange={(event) => setForAll(event.currentTarget.checked)}
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
