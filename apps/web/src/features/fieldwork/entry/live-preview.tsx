import type { ItemVerdict } from '@countercheck/rules';
import { EnvelopeFit } from '../../../components/envelope-fit/index.ts';
import { CloseMark, StatusMark } from '../../../components/marks/index.ts';
import { Results } from '../../../components/working/index.ts';
import { useVerdictIn } from '../../../lib/units/verdict-in.ts';
import type { useReadingForm } from './use-reading-form.ts';

type Form = ReturnType<typeof useReadingForm>;
interface Props {
  /** its verdict is null while the installer's figure is hidden: it would tell it */
  form: Pick<Form, 'test' | 'result' | 'ticked' | 'instrument' | 'preview' | 'hidden' | 'unticked'>;
}

const none: never[] = [];

function Said({ verdict: kept }: { verdict: ItemVerdict }) {
  const verdict = useVerdictIn(kept);
  return (
    <>
      <StatusMark status={verdict.status} /> {verdict.reason} <CloseMark verdict={verdict} words />
    </>
  );
}

/** What the numbers typed so far come to, before anything is recorded. */
export function LivePreview({ form }: Props) {
  const { result: outcome, ticked: raw, instrument, preview: verdict, hidden, unticked } = form;
  const test = form.test.key;
  return (
    <section className="preview" aria-label="Result so far" aria-live="polite">
      {outcome.ok ? (
        <>
          <Results test={test} {...outcome} />
          {hidden && (
            <p className="soft">
              The installer’s figure is hidden until your own reading is recorded; the verdict comes then.
            </p>
          )}
          {!hidden && verdict && (
            <p className="preview-verdict">
              <Said verdict={verdict} />
            </p>
          )}
          {unticked && <p className="soft">Tick the set-up above; the reading counts only with it.</p>}
        </>
      ) : (
        <p className="soft">The result comes up here while you type.</p>
      )}
      <EnvelopeFit
        test={test}
        raw={raw}
        instrument={instrument}
        problems={outcome.ok ? none : outcome.problems}
      />
    </section>
  );
}
