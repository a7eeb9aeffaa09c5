import { review } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Caution, StatusMark, type MarkedStatus } from '../../components/marks/index.ts';
import { FactList, Moment, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { useRoute } from '../../lib/query.ts';

/** The sealed result of a house. */
export function ReleasedResult({ houseId }: { houseId: string }) {
  const query = useRoute(review.result, { params: { id: houseId } });
  return (
    <Panel title="Released result">
      <Asked query={query}>
        {(result) => (
          <div className="stack">
            <FactList
              facts={[
                ['Released', <Moment key="at" at={result.releasedAt} />],
                ['By', result.releasedBy],
                ['Revision', result.revision],
                ['Rule set', `${result.ruleSet.title}, ${result.ruleSet.version}`],
              ]}
            />
            <RowsTable
              caption="Items of the result"
              rows={result.items}
              keyOf={({ item, subjectLabel }) => `${item}/${subjectLabel}`}
              columns={[
                { title: 'Item', head: true, cell: ({ title }) => title },
                { title: 'Part', cell: ({ subjectLabel }) => subjectLabel },
                {
                  title: 'Verdict',
                  cell: ({ status }) => <StatusMark status={status as MarkedStatus} size="s" />,
                },
                { title: 'In words', cell: ({ reason }) => reason },
              ]}
            />
            {result.cautions.map((caution) => (
              <Caution key={caution}>{caution}</Caution>
            ))}
            <div>
              <p className="soft small">
                Seal (SHA-256): anybody who holds the file can check it against this.
              </p>
              <p className="code">{result.hash}</p>
              <p>
                <Link to={`/releases/${result.releaseId}/proof`}>Check that this is what was released</Link>
              </p>
            </div>
          </div>
        )}
      </Asked>
    </Panel>
  );
}
