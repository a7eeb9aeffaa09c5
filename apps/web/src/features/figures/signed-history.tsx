import { Button } from '@mantine/core';
import type { FiguresForm, InstallerSubmission } from '@countercheck/contracts';
import type { QuantityKind } from '@countercheck/measurement';
import { Quantity } from '../../components/fields/index.ts';
import { FactList, Panel } from '../../components/page/index.ts';
import { showHere } from './show-here.ts';

function Signed({ form, submission }: { form: FiguresForm; submission: InstallerSubmission }) {
  return (
    <div className="stack">
      <p>
        Signed by {submission.signedName}, {showHere(submission.signedAt)}
      </p>
      {form.subjects.map(({ id, label, figures }) => (
        <section key={id} aria-label={label}>
          <h3>{label}</h3>
          <FactList
            facts={figures.map(({ name, label: what, quantity }) => [
              what.charAt(0).toUpperCase() + what.slice(1),
              <Quantity
                key={name}
                kind={quantity as QuantityKind}
                value={submission.figures[id]?.[name]}
                absent="not reported"
              />,
            ])}
          />
        </section>
      ))}
    </div>
  );
}

interface Props {
  form: FiguresForm;
  onCorrect: (() => void) | null;
}

/** What was signed, the newest first; former revisions stay readable. */
export function SignedHistory({ form, onCorrect }: Props) {
  const [newest, ...former] = form.submissions;
  if (!newest) return null;
  return (
    <Panel title={`Signed figures, revision ${newest.revision}`}>
      <div className="stack">
        <Signed form={form} submission={newest} />
        {onCorrect && (
          <div>
            <Button size="lg" variant="default" onClick={onCorrect}>
              Correct and sign again
            </Button>
          </div>
        )}
        {former.map((submission) => (
          <details key={submission.id} className="former">
            <summary>
              Revision {submission.revision}, {showHere(submission.signedAt)}
            </summary>
            <Signed form={form} submission={submission} />
          </details>
        ))}
      </div>
    </Panel>
  );
}
