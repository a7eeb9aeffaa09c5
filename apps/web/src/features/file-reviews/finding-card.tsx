import { Button, Group } from '@mantine/core';
import { fileReviews, type FileFinding } from '@countercheck/contracts';
import { useState } from 'react';
import { Tag } from '../../components/marks/index.ts';
import { DateText, Moment } from '../../components/page/index.ts';
import { Problem } from '../../components/states/index.ts';
import { onDemand } from '../../lib/on-demand.tsx';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { decisionWords, findingStateTones, findingStateWords } from '../../lib/words/quality.ts';
import { severityWords } from '../../lib/words/work.ts';

const forms = () => import('./respond-forms.tsx');
const AnswerForm = onDemand(async () => (await forms()).AnswerForm);
const AppealForm = onDemand(async () => (await forms()).AppealForm);
const DecideForm = onDemand(async () => (await forms()).DecideForm);
const SettleForm = onDemand(async () => (await forms()).SettleForm);

interface Props {
  finding: FileFinding;
  /** whoever has taken the review may take a finding back */
  reviewing?: boolean;
  /** the finding is on a file of the one who looks */
  own?: boolean;
}

type Asking = 'answer' | 'appeal' | 'settle' | 'decide';

/** A finding, what was said to it, and what the one who looks may do about it. */
export function FindingCard({ finding, reviewing = false, own = false }: Props) {
  const { id: me, role } = useMe();
  const [asking, setAsking] = useState<Asking | null>(null);
  const strike = useAction(fileReviews.changeFinding, { invalidates: [fileReviews.show] });
  const { state, responsible } = finding;
  const unsettled = state === 'open' || state === 'answered';
  const may: [Asking, string, boolean][] = [
    ['answer', 'Answer', role === 'rater' && responsible.id === me && unsettled],
    ['appeal', 'Appeal', own && unsettled && finding.decision === null],
    ['settle', 'Accept the answer', role === 'quality' && state === 'answered' && !reviewing],
    ['decide', 'Decide the appeal', (role === 'quality' || role === 'administrator') && state === 'appealed'],
  ];
  const close = () => setAsking(null);
  return (
    <article className="finding-card stack" aria-label={`Finding: ${finding.checkTitle}`}>
      <p>
        <Tag tone={finding.severity === 'major' ? 'bad' : 'brass'}>{severityWords[finding.severity]}</Tag>{' '}
        <Tag tone={findingStateTones[state]}>{findingStateWords[state]}</Tag>{' '}
        {finding.overdue && <Tag tone="bad">Overdue</Tag>} <strong>{finding.checkTitle}:</strong>{' '}
        {finding.text}
      </p>
      <p className="small soft">
        {finding.raisedBy}, <Moment at={finding.raisedAt} /> · to be put right by {responsible.name} until{' '}
        <DateText date={finding.dueOn} />
      </p>
      {finding.answer && (
        <p>
          Answer of {finding.answeredBy} (<Moment at={finding.answeredAt} />
          ): {finding.answer}
        </p>
      )}
      {finding.appeal && (
        <p>
          Appeal (<Moment at={finding.appealedAt} />
          ): {finding.appeal}
        </p>
      )}
      {finding.decision && (
        <p>
          {decisionWords[finding.decision]}, {finding.decidedBy} (<Moment at={finding.decidedAt} />
          ): {finding.decisionReason}
        </p>
      )}
      {finding.settledAt && (
        <p className="soft">
          Settled by {finding.settledBy}, <Moment at={finding.settledAt} />
          {finding.settledNote && `: ${finding.settledNote}`}
        </p>
      )}
      {strike.isError && <Problem error={strike.error} />}
      <Group gap="xs">
        {may.map(
          ([what, words, allowed]) =>
            allowed && (
              <Button key={what} variant="default" onClick={() => setAsking(what)}>
                {words}
              </Button>
            ),
        )}
        {reviewing && state === 'open' && !finding.automatic && (
          <Button
            variant="default"
            loading={strike.isPending}
            onClick={() => strike.mutate({ params: { id: finding.id }, body: { struck: true } })}
          >
            Take it back
          </Button>
        )}
      </Group>
      {asking === 'answer' && <AnswerForm finding={finding} onClose={close} />}
      {asking === 'appeal' && <AppealForm finding={finding} onClose={close} />}
      {asking === 'settle' && <SettleForm finding={finding} onClose={close} />}
      {asking === 'decide' && <DecideForm finding={finding} onClose={close} />}
    </article>
  );
}
