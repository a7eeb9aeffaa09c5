import { Button } from '@mantine/core';
import { installers, type HouseDetail, type InstallerLink } from '@countercheck/contracts';
import { useState } from 'react';
import { Confirm, said } from '../../../components/feedback/index.ts';
import { Tag } from '../../../components/marks/index.ts';
import { Moment, Panel } from '../../../components/page/index.ts';
import { Asked, Empty } from '../../../components/states/index.ts';
import { RowsTable, type Column } from '../../../components/table/index.ts';
import { onDemand } from '../../../lib/on-demand.tsx';
import { useAction, useRoute } from '../../../lib/query.ts';
import { linkStateWords } from '../../../lib/words/work.ts';

const SendLinkDialog = onDemand(async () => (await import('./send-link-dialog.tsx')).SendLinkDialog);

/** Personal links by which installers report their figures. */
export function LinksPanel({ house, keeper }: { house: HouseDetail; keeper: boolean }) {
  const query = useRoute(installers.links, { params: { id: house.id } });
  const revoke = useAction(installers.revokeLink, { invalidates: [installers.links] });
  const [sending, setSending] = useState(false);
  const [revoking, setRevoking] = useState<InstallerLink | null>(null);
  const columns: Column<InstallerLink>[] = [
    { title: 'Installer', head: true, cell: (row) => `${row.installer.name}, ${row.installer.companyName}` },
    {
      title: 'State',
      cell: (row) => <Tag tone={row.state === 'open' ? 'good' : 'plain'}>{linkStateWords[row.state]}</Tag>,
    },
    { title: 'Until', cell: (row) => <Moment at={row.expiresAt} day /> },
    { title: 'Last used', cell: (row) => <Moment at={row.lastUsedAt} /> },
  ];
  if (keeper) {
    columns.push({
      title: 'Actions',
      cell: (row) =>
        row.state === 'open' && (
          <Button
            size="compact-sm"
            variant="subtle"
            color="red"
            aria-label={`Withdraw the link of ${row.installer.name}`}
            onClick={() => setRevoking(row)}
          >
            Withdraw
          </Button>
        ),
    });
  }
  return (
    <Panel
      title="Links to installers"
      flush
      actions={
        keeper &&
        house.stage !== 'released' && (
          <Button size="xs" variant="default" onClick={() => setSending(true)}>
            Make a link
          </Button>
        )
      }
    >
      <Asked query={query}>
        {(links) =>
          links.length === 0 ? (
            <Empty title="No link made yet">
              The installer enters and signs his figures through a personal link.
            </Empty>
          ) : (
            <RowsTable caption="Links to installers" columns={columns} rows={links} keyOf={(row) => row.id} />
          )
        }
      </Asked>
      {sending && <SendLinkDialog house={house} onClose={() => setSending(false)} />}
      <Confirm
        title="Withdraw the link?"
        opened={revoking !== null}
        onClose={() => setRevoking(null)}
        action="Withdraw the link"
        grave
        onConfirm={async () => {
          if (revoking) await revoke.mutateAsync({ params: { id: revoking.id } });
          said('Link withdrawn');
        }}
      >
        <p>{revoking?.installer.name} can no longer open it. What was signed stays.</p>
      </Confirm>
    </Panel>
  );
}
