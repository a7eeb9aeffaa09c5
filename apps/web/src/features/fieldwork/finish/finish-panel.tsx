import { Button } from '@mantine/core';
import type { Visit, VisitSheet } from '@countercheck/contracts';
import type { ItemVerdict } from '@countercheck/rules';
import { useState } from 'react';
import { ConfirmWords, said } from '../../../components/feedback/index.ts';
import { Choice, optionsOf } from '../../../components/fields/index.ts';
import { Caution } from '../../../components/marks/index.ts';
import { Panel } from '../../../components/page/index.ts';
import { useNotReady, useSubmitVisit } from '../data/deeds.ts';
import { notReadyWords } from '../../../lib/words/scheduling.ts';
import { usePhone } from '../phone/use-phone.ts';
import { draftsWaiting } from '../entry/draft-store.ts';

type NotReadyKind = NonNullable<Visit['notReadyKind']>;

interface Props {
  sheet: VisitSheet;
  verdicts: readonly ItemVerdict[];
}

/** So many are read at a glance; more of them are asked for. */
const few = 3;

/** The end of a visit: what still waits, submitting, or that the house was not ready. */
export function FinishPanel({ sheet, verdicts }: Props) {
  const [asking, setAsking] = useState<'submit' | 'not-ready' | null>(null);
  const [causeKind, setCauseKind] = useState<NotReadyKind>('other');
  const submit = useSubmitVisit(sheet);
  const notReady = useNotReady(sheet);
  const { id } = sheet.visit;
  const waiting = verdicts.filter(({ status }) => status === 'waiting');
  const unrecorded = draftsWaiting(id, usePhone().phone?.drafts ?? localStorage);
  const list = (reasons: boolean) => (
    <ul className="waiting-list">
      {waiting.map((verdict) => (
        <li key={`${verdict.item}/${verdict.subjectId}`}>
          {verdict.title}, {verdict.subjectLabel}
          {reasons && <span className="soft">: {verdict.reason.replace(/^Waiting: /, '')}</span>}
        </li>
      ))}
    </ul>
  );
  return (
    <Panel title="End of the visit">
      <div className="stack">
        {unrecorded > 0 && (
          <Caution>
            {unrecorded === 1 ? 'One form is' : `${unrecorded} forms are`} typed on this device but not
            recorded.
          </Caution>
        )}
        {waiting.length === 0 ? (
          <p>Nothing waits any more.</p>
        ) : (
          <details className="fold" open={waiting.length <= few}>
            <summary>Still waiting ({waiting.length})</summary>
            {list(true)}
          </details>
        )}
        <div className="big-actions">
          <Button size="lg" onClick={() => setAsking('submit')}>
            Submit the visit
          </Button>
          <Button size="lg" variant="default" onClick={() => setAsking('not-ready')}>
            House was not ready
          </Button>
        </div>
      </div>
      <ConfirmWords
        title={waiting.length > 0 ? `Submit with ${waiting.length} waiting?` : 'Submit the visit?'}
        opened={asking === 'submit'}
        onClose={() => setAsking(null)}
        action={waiting.length > 0 ? 'Submit all the same' : 'Submit'}
        label="Note for the file"
        maxLength={2000}
        onConfirm={async (note) => {
          await submit.mutateAsync({ note, acceptWaiting: waiting.length > 0 });
          said('The visit is submitted.');
        }}
      >
        <p>
          What failed goes to the builder. After that the readings can only be corrected by opening the visit
          again.
        </p>
        {waiting.length > 0 && list(false)}
      </ConfirmWords>
      <ConfirmWords
        title="The house was not ready"
        opened={asking === 'not-ready'}
        onClose={() => setAsking(null)}
        action="Close the visit"
        label="Cause"
        required
        description="The office and the builder read this."
        maxLength={500}
        onConfirm={async (cause) => {
          await notReady.mutateAsync({ cause, kind: causeKind });
          said('The visit is closed; the office sees the cause.');
        }}
      >
        <Choice
          label="What was missing"
          options={optionsOf(notReadyWords)}
          value={causeKind}
          onChange={(value) => setCauseKind((value ?? 'other') as NotReadyKind)}
        />
      </ConfirmWords>
    </Panel>
  );
}
