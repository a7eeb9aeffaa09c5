import { Button, Textarea } from '@mantine/core';
import type { Visit, WholeFile } from '@countercheck/contracts';
import { useState } from 'react';
import { said } from '../../../components/feedback/index.ts';
import { Tag } from '../../../components/marks/index.ts';
import { Moment, Panel } from '../../../components/page/index.ts';
import { SendBack } from '../../../components/returned-file/index.ts';
import { Loading, Problem } from '../../../components/states/index.ts';
import { useRole } from '../../../lib/session.ts';
import { useAnswerFinding, useReviews, useSendBack } from '../data/returned.ts';
import { severityWords } from '../../../lib/words/work.ts';

type ReturnedFinding = WholeFile['reviews'][number]['findings'][number];

function Answer({ finding }: { finding: ReturnedFinding }) {
  const [answer, setAnswer] = useState(finding.answer ?? '');
  const send = useAnswerFinding();
  const save = () =>
    send.mutate(
      { params: { id: finding.id }, body: { answer: answer.trim() } },
      { onSuccess: () => said('Answer kept.') },
    );
  return (
    <>
      <Textarea
        size="md"
        label="Answer"
        aria-label={`Answer to: ${finding.text}`}
        autosize
        maxLength={2000}
        value={answer}
        onChange={(event) => setAnswer(event.currentTarget.value)}
      />
      {send.error && <Problem error={send.error} />}
      <div>
        <Button
          size="md"
          variant="default"
          loading={send.isPending}
          disabled={answer.trim() === '' || answer.trim() === finding.answer}
          onClick={save}
        >
          Keep the answer
        </Button>
      </div>
    </>
  );
}

function Finding({ finding, mayAnswer }: { finding: ReturnedFinding; mayAnswer: boolean }) {
  return (
    <li className="stack finding">
      <p>
        <Tag tone={finding.severity === 'major' ? 'bad' : 'brass'}>{severityWords[finding.severity]}</Tag>{' '}
        {finding.item && <strong>{finding.item.replaceAll('-', ' ')}: </strong>}
        {finding.text}
      </p>
      {mayAnswer ? (
        <Answer finding={finding} />
      ) : (
        finding.answer && <p className="soft">Answer: {finding.answer}</p>
      )}
    </li>
  );
}

/** What the quality manager found in a returned file, with a place to answer. */
export function Findings({ house }: { house: Pick<Visit['house'], 'id' | 'stage'> }) {
  const mayAnswer = useRole('rater', 'office');
  const isReturned = house.stage === 'returned';
  const reviews = useReviews(house.id, isReturned);
  const sendBack = useSendBack();
  if (!isReturned) return null;
  if (reviews.isError) return <Problem error={reviews.error} retry={() => void reviews.refetch()} />;
  if (!reviews.data) return <Loading what="Loading the findings" />;
  const last = reviews.data.find(({ outcome }) => outcome === 'returned');
  const findings = last?.findings ?? [];
  return (
    <Panel title="Returned with findings">
      <div className="stack">
        {last && (
          <p className="soft">
            {last.reviewer}, <Moment at={last.at} />
            {last.note && `: ${last.note}`}
          </p>
        )}
        <ol className="findings">
          {findings.map((each) => (
            <Finding key={each.id} finding={each} mayAnswer={mayAnswer} />
          ))}
        </ol>
        {mayAnswer && (
          <SendBack
            size="lg"
            open={findings.filter(({ answer }) => answer === null).length}
            send={(note) => sendBack.mutateAsync({ params: { id: house.id }, body: { note } })}
          />
        )}
      </div>
    </Panel>
  );
}
