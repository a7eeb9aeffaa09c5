import { Switch } from '@mantine/core';
import { service } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { said } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { DateText, Page } from '../../components/page/index.ts';
import { Asked, Empty, Problem } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import type { AnswerOf } from '../../lib/client.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';

type RuleSetRow = AnswerOf<typeof service.ruleSets>[number];

export default function RuleSetsPage() {
  const query = useRoute(service.ruleSets, {});
  const admin = useRole('administrator');
  const offer = useAction(service.offerRuleSet, {
    invalidates: [service.ruleSets],
    onDone: (set) =>
      said(set.offered ? `${set.title} is offered for new houses` : `${set.title} is no longer offered`),
  });
  const columns: Column<RuleSetRow>[] = [
    { title: 'Rule set', head: true, cell: (row) => <Link to={`/rule-sets/${row.id}`}>{row.title}</Link> },
    { title: 'Version', cell: (row) => row.version },
    { title: 'In force from', cell: (row) => <DateText date={row.effectiveOn} /> },
    { title: 'Houses', figure: true, cell: (row) => row.houses },
    {
      title: 'For new houses',
      cell: (row) =>
        admin ? (
          <Switch
            aria-label={`Offer ${row.title} ${row.version} for new houses`}
            checked={row.offered}
            disabled={offer.isPending}
            onChange={(event) =>
              offer.mutate({ params: { id: row.id }, body: { offered: event.currentTarget.checked } })
            }
          />
        ) : (
          <Tag tone={row.offered ? 'good' : 'plain'}>{row.offered ? 'Offered' : 'Not offered'}</Tag>
        ),
    },
  ];
  return (
    <Page title="Rule sets" lead="A house keeps the rule set it was registered with.">
      {offer.isError && <Problem error={offer.error} />}
      <Asked query={query}>
        {(sets) =>
          sets.length === 0 ? (
            <Empty title="No rule set published yet" />
          ) : (
            <RowsTable caption="Rule sets" columns={columns} rows={sets} keyOf={(row) => row.id} />
          )
        }
      </Asked>
    </Page>
  );
}
