import type { TestOutcome } from '@countercheck/measurement';
import type { ItemVerdict } from '@countercheck/rules';
import { StatusMark } from '../../../components/marks/index.ts';
import { Results, Working } from '../why/working.tsx';

interface Props {
  outcome: TestOutcome;
  /** null while the installer's figure is hidden: the verdict would tell it */
  verdict: ItemVerdict | null;
  hidden: boolean;
  /** the set-up is not confirmed yet, so nothing can be recorded */
  unticked: boolean;
}

/** What the numbers typed so far come to, before anything is recorded. */
export function LivePreview({ outcome, verdict, hidden, unticked }: Props) {
  return (
    <section className="preview" aria-label="Result so far" aria-live="polite">
      {outcome.ok ? (
        <>
          <Results values={outcome.values} />
          {hidden && (
            <p className="soft">
              The installer’s figure is hidden until your own reading is recorded; the verdict comes then.
            </p>
          )}
          {!hidden && verdict && (
            <p className="preview-verdict">
              <StatusMark status={verdict.status} /> {verdict.reason}
            </p>
          )}
          {unticked && <p className="soft">Tick the set-up above; the reading counts only with it.</p>}
          {outcome.remarks.map((remark) => (
            <p key={remark} className="soft">
              Note: {remark}.
            </p>
          ))}
          <Working steps={outcome.steps} />
        </>
      ) : (
        <p className="soft">The result comes up here while you type.</p>
      )}
    </section>
  );
}
