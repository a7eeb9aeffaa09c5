import { inWords } from '../../lib/problem.ts';
import { Page } from '../../components/page/index.ts';

/** A link that opens nothing any more, and what to do about it. */
export function LinkProblem({ error }: { error: unknown }) {
  const { title, detail, remedy } = inWords(error);
  return (
    <Page width="reading" title={title}>
      <div className="stack">
        {detail && <p>{detail}</p>}
        <p>{remedy}</p>
        <p className="soft">Figures that you have signed are kept, whatever becomes of the link.</p>
      </div>
    </Page>
  );
}
