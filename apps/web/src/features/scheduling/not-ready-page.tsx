import { TextInput } from '@mantine/core';
import { notReadyKinds, scheduling } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useMe, useRole } from '../../lib/session.ts';
import { notReadyWords } from '../../lib/words/scheduling.ts';

const share = (part: number, whole: number) => (whole === 0 ? '–' : `${Math.round((100 * part) / whole)} %`);

/** How often raters came to a house that was not ready, by builder and cause. */
export default function NotReadyPage() {
  const now = today(useMe().company.timezone);
  const inside = useRole('office', 'administrator', 'quality');
  const { values, change } = useListSearch();
  const from = values.from ?? addDays(now, -90);
  const to = values.to ?? now;
  const query = useRoute(scheduling.notReady, { query: { from, to } }, { keepPrevious: true });
  return (
    <Page title="Not ready" lead="Visits that found a house not ready, by builder and cause">
      <div className="filters">
        {(['from', 'to'] as const).map((name) => (
          <TextInput
            key={name}
            type="date"
            label={name === 'from' ? 'From' : 'To'}
            value={name === 'from' ? from : to}
            onChange={(event) => event.currentTarget.value && change({ [name]: event.currentTarget.value })}
          />
        ))}
      </div>
      <Asked query={query}>
        {({ builders, newest }) => {
          const causes = notReadyKinds.filter((kind) => builders.some((each) => each.causes[kind]));
          return (
            <>
              <Panel title="By builder" flush>
                {builders.length === 0 ? (
                  <Empty title="No visit in these days" />
                ) : (
                  <RowsTable
                    caption="Visits that found a house not ready, by builder"
                    rows={builders}
                    keyOf={(row) => row.builder.id}
                    columns={[
                      {
                        title: 'Builder',
                        head: true,
                        cell: ({ builder }) =>
                          inside ? <Link to={`/builders/${builder.id}`}>{builder.name}</Link> : builder.name,
                      },
                      { title: 'Visits', figure: true, cell: (row) => row.visits },
                      { title: 'Not ready', figure: true, cell: (row) => row.notReady },
                      { title: 'Share', figure: true, cell: (row) => share(row.notReady, row.visits) },
                      ...causes.map((kind) => ({
                        title: notReadyWords[kind],
                        figure: true,
                        cell: (row: (typeof builders)[number]) => row.causes[kind] ?? 0,
                      })),
                    ]}
                  />
                )}
              </Panel>
              <Panel title="Newest" flush>
                {newest.length === 0 ? (
                  <Empty title="Every house was ready" />
                ) : (
                  <RowsTable
                    caption="Newest visits that found a house not ready"
                    rows={newest}
                    keyOf={(row) => row.visitId}
                    columns={[
                      {
                        title: 'House',
                        head: true,
                        cell: ({ house }) => (
                          <Link to={inside ? `/houses/${house.id}` : `/my-houses/${house.id}`}>
                            {house.address}
                          </Link>
                        ),
                      },
                      { title: 'Builder', cell: (row) => row.house.builder.name },
                      { title: 'When', cell: (row) => <Moment at={row.at} /> },
                      { title: 'Rater', cell: (row) => row.rater },
                      { title: 'Cause', cell: (row) => notReadyWords[row.kind] },
                      { title: 'In words', cell: (row) => row.cause ?? '–' },
                    ]}
                  />
                )}
              </Panel>
            </>
          );
        }}
      </Asked>
    </Page>
  );
}
