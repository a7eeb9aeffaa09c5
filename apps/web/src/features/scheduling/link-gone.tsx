import { Page } from '../../components/page/index.ts';
import { inWords } from '../../lib/problem.ts';

/** Instead of a page behind a personal link that no longer opens anything: why, and what to do. */
export function LinkGone({ error }: { error: unknown }) {
  const { title, detail, remedy } = inWords(error);
  return (
    <Page width="reading" title={title}>
      <div className="stack">
        {detail && <p>{detail}</p>}
        <p>{remedy}</p>
      </div>
    </Page>
  );
}
