import { inWords } from '../../lib/problem.ts';
import { Page } from '../page/index.ts';

interface LinkGoneProps {
  error: unknown;
  /** what the link does not take with it */
  kept?: string;
}

/** Instead of a page behind a personal link that no longer opens anything: why, and what to do. */
export function LinkGone({ error, kept }: LinkGoneProps) {
  const { title, detail, remedy } = inWords(error);
  return (
    <Page width="reading" title={title}>
      <div className="stack">
        {detail && <p>{detail}</p>}
        <p>{remedy}</p>
        {kept && <p className="soft">{kept}</p>}
      </div>
    </Page>
  );
}
