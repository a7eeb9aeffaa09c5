import { Button, Group } from '@mantine/core';
import { fileReviews, type FileReview, type WholeFile } from '@countercheck/contracts';
import { useLocalStorage } from '@mantine/hooks';
import { useState } from 'react';
import { ConfirmWords, said } from '../../../components/feedback/index.ts';
import { Tag } from '../../../components/marks/index.ts';
import { Panel } from '../../../components/page/index.ts';
import { Problem } from '../../../components/states/index.ts';
import { useAction } from '../../../lib/query.ts';
import { useRole } from '../../../lib/session.ts';
import { ShortcutHelp } from './shortcut-help.tsx';
import { nextOpen, progressOf } from './steps.ts';
import { StepView } from './step-view.tsx';
import { useKeys, type Shortcut } from './use-keys.ts';
import { useMarks } from './use-marks.ts';
import { onDemand } from '../../../lib/on-demand.tsx';

const FindingForm = onDemand(async () => (await import('./finding-form.tsx')).FindingForm);

const markWords = { ok: 'In order', finding: 'Finding', not_applicable: 'Does not apply' } as const;
const markTones = { ok: 'good', finding: 'bad', not_applicable: 'plain' } as const;

/** Scrolls the list only, so that the page stays where the reviewer looks. */
function keepInSight(button: HTMLButtonElement | null) {
  const list = button?.closest('ol');
  if (!button || !list) return;
  const top = button.offsetTop - list.offsetTop;
  if (top < list.scrollTop) list.scrollTop = top;
  else if (top + button.offsetHeight > list.scrollTop + list.clientHeight)
    list.scrollTop = top + button.offsetHeight - list.clientHeight;
}

/** The steps of a review, one at a time. Its letters are listed beside it and work only for whoever has taken it. */
export function Desk({ review, file }: { review: FileReview; file: WholeFile }) {
  const { steps } = review;
  const working = review.mine && review.state === 'open';
  const mayTake = useRole('quality') && review.state === 'open' && !review.reviewer && !review.ownWork;
  const [at, setAt] = useState(() =>
    Math.max(
      0,
      steps.findIndex(({ mark }) => mark === null),
    ),
  );
  const [asking, setAsking] = useState<'finding' | 'finish' | null>(null);
  const [letters, setLetters] = useLocalStorage({
    key: 'review-letters',
    defaultValue: true,
    getInitialValueInEffect: false,
  });
  const { mark, problem, sent } = useMarks(review);
  const params = { id: review.id };
  const changed = [fileReviews.show, fileReviews.list];
  const take = useAction(fileReviews.take, { invalidates: changed });
  const finish = useAction(fileReviews.finish, { invalidates: changed });
  const step = steps[Math.min(at, steps.length - 1)];
  const { seen, total, findings } = progressOf(steps);
  const go = (to: number) => setAt(Math.max(0, Math.min(to, steps.length - 1)));
  const say = (wanted: 'ok' | 'not_applicable') => {
    if (!step) return;
    mark(step, wanted);
    setAt(nextOpen(steps, at));
  };

  const shortcuts: Shortcut[] = [
    ...(mayTake ? [{ key: 't', does: 'Take this review', run: () => take.mutate({ params }) }] : []),
    { key: 'j', does: 'Next', run: () => go(at + 1) },
    { key: 'k', does: 'Previous', run: () => go(at - 1) },
    ...(working
      ? [
          { key: 'o', does: 'In order, and on to the next', run: () => say('ok') },
          { key: 'f', does: 'Note a finding', run: () => setAsking('finding') },
          ...(step?.kind === 'check'
            ? [{ key: 'n', does: 'Does not apply, and on', run: () => say('not_applicable') }]
            : []),
          { key: 'e', does: 'End the review', run: () => setAsking('finish') },
        ]
      : []),
  ];
  useKeys(shortcuts, letters && asking === null);
  if (!step) return null;
  const name = `${step.title}${step.subject ? `, ${step.subject}` : ''}`;
  const hint = (key: string) => (letters ? { 'aria-keyshortcuts': key } : {});

  return (
    <div className="review-desk">
      <Panel title="Steps" flush>
        <ol className="review-steps">
          {steps.map((each, i) => (
            <li key={each.step}>
              <button
                type="button"
                ref={i === at ? keepInSight : undefined}
                aria-current={i === at ? 'step' : undefined}
                onClick={() => go(i)}
              >
                <span>
                  {each.title}
                  {each.subject && <span className="soft">, {each.subject}</span>}
                </span>
                {each.mark && <Tag tone={markTones[each.mark]}>{markWords[each.mark]}</Tag>}
              </button>
            </li>
          ))}
        </ol>
      </Panel>
      <Panel title={name}>
        <div className="stack">
          <p role="status" className="review-progress">
            Step {at + 1} of {total}
            {step.mark ? `: ${markWords[step.mark].toLowerCase()}` : ''}. {seen} seen, {findings}{' '}
            {findings === 1 ? 'finding' : 'findings'}.
          </p>
          {problem !== null && <Problem error={problem} />}
          {take.isError && <Problem error={take.error} />}
          <Group gap="xs">
            {mayTake && (
              <Button loading={take.isPending} onClick={() => take.mutate({ params })} {...hint('t')}>
                Take this review
              </Button>
            )}
            {working && (
              <>
                <Button onClick={() => say('ok')} {...hint('o')}>
                  In order
                </Button>
                <Button variant="default" onClick={() => setAsking('finding')} {...hint('f')}>
                  Finding
                </Button>
                {step.kind === 'check' && (
                  <Button variant="default" onClick={() => say('not_applicable')} {...hint('n')}>
                    Does not apply
                  </Button>
                )}
              </>
            )}
            <Button variant="default" disabled={at === 0} onClick={() => go(at - 1)} {...hint('k')}>
              Previous
            </Button>
            <Button variant="default" disabled={at === total - 1} onClick={() => go(at + 1)} {...hint('j')}>
              Next
            </Button>
            {working && (
              <Button variant="default" onClick={() => setAsking('finish')} {...hint('e')}>
                End the review
              </Button>
            )}
          </Group>
          <StepView review={review} step={step} file={file} />
          <ShortcutHelp shortcuts={shortcuts} on={letters} onSwitch={setLetters} />
        </div>
      </Panel>
      {asking === 'finding' && (
        <FindingForm
          review={review}
          step={step}
          onClose={() => setAsking(null)}
          onFound={() => {
            setAsking(null);
            setAt(nextOpen(steps, at));
          }}
        />
      )}
      <ConfirmWords
        title="End the review?"
        opened={asking === 'finish'}
        onClose={() => setAsking(null)}
        action="End it"
        label="Note"
        onConfirm={async (note) => {
          await sent();
          const { outcome } = await finish.mutateAsync({ params, body: { note } });
          said(outcome === 'clean' ? 'The file is clean.' : 'The findings are with whoever is responsible.');
        }}
      >
        <p>
          {seen} of {total} steps were looked at, with {findings} {findings === 1 ? 'finding' : 'findings'}.
        </p>
      </ConfirmWords>
    </div>
  );
}
