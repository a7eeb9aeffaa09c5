import { Button, Checkbox, Group } from '@mantine/core';
import { batches, type Batch } from '@countercheck/contracts';
import { useState } from 'react';
import { Tag } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Empty, Problem } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { useAction } from '../../lib/query.ts';
import { TakeResult } from './take-result.tsx';

type Candidate = Batch['candidates'][number];

const readyWords: Record<Candidate['readiness'], string> = {
  before: 'Measured before the batch was opened',
  passed: 'Measured, passed',
  failed: 'Measured, failed',
  'not-tested': 'Not measured yet',
};

/** Houses that may come in: measured ones on their own, the others in a set. */
export function CandidatesPanel({ batch, may }: { batch: Batch; may: boolean }) {
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const open = useAction(batches.openSet, {
    invalidates: [batches.show, batches.list],
    onDone: () => setChosen([]),
  });
  const canOpen = may && batch.whyNoSet === null;
  const most = batch.ruleSet.rules.find(({ name }) => name === 'setSize')?.value ?? 0;
  const columns: Column<Candidate>[] = [
    { title: 'House', head: true, cell: (row) => `${row.address}, lot ${row.lot}` },
    {
      title: 'File',
      cell: ({ readiness }) => (
        <Tag tone={readiness === 'failed' ? 'bad' : readiness === 'passed' ? 'good' : 'plain'}>
          {readyWords[readiness]}
        </Tag>
      ),
    },
    {
      title: 'Into the batch',
      cell: (row) => {
        if (!may) return '–';
        if (row.readiness !== 'not-tested') return <TakeResult batchId={batch.id} house={row} />;
        if (!canOpen) return 'Not measured yet';
        return (
          <Checkbox
            label={`Into the set`}
            aria-label={`${row.address} into the set`}
            checked={chosen.includes(row.id)}
            onChange={(event) =>
              setChosen(
                event.currentTarget.checked ? [...chosen, row.id] : chosen.filter((each) => each !== row.id),
              )
            }
          />
        );
      },
    },
  ];
  // Whoever knows a result before could choose by it; such a house comes into no set.
  const coming = batch.candidates.filter(
    ({ readiness }) => readiness === 'not-tested' || (readiness !== 'before' && batch.phase !== 'sampling'),
  );
  return (
    <Panel title="Houses that may come in" flush>
      {coming.length === 0 ? (
        <Empty title="No other house of this builder, community and plan" />
      ) : (
        <RowsTable caption="Houses that may come in" columns={columns} rows={coming} keyOf={({ id }) => id} />
      )}
      {canOpen && (
        <div className="stack panel-note">
          <p role="status">
            {chosen.length} of at most {most} houses for the next set. Which are tested is drawn when it is
            opened.
          </p>
          {open.error && <Problem error={open.error} />}
          <Group>
            <Button
              disabled={chosen.length === 0}
              loading={open.isPending}
              onClick={() => open.mutate({ params: { id: batch.id }, body: { houseIds: [...chosen] } })}
            >
              Open the set
            </Button>
          </Group>
        </div>
      )}
    </Panel>
  );
}
