import { Button, Group, TextInput } from '@mantine/core';
import { sampling, type Draw } from '@countercheck/contracts';
import { useState } from 'react';
import { CopyText } from '../../../components/fields/index.ts';
import { Tag } from '../../../components/marks/index.ts';
import { FactList, Moment, Panel } from '../../../components/page/index.ts';
import { Problem } from '../../../components/states/index.ts';
import { RowsTable, type Column } from '../../../components/table/index.ts';
import { urlOf, type AnswerOf } from '../../../lib/client.ts';
import { useAction } from '../../../lib/query.ts';
import { useRole } from '../../../lib/session.ts';

type Check = AnswerOf<typeof sampling.repeatHere>['checks'][number];

export function RevealPanel({ draw }: { draw: Draw }) {
  const mayDraw = useRole('quality');
  return (
    <Panel title="Step 3: Seed revealed">
      {draw.result ? (
        <Revealed id={draw.id} result={draw.result} />
      ) : mayDraw ? (
        <Reveal id={draw.id} />
      ) : (
        <p>The quality manager reveals the seed next.</p>
      )}
    </Panel>
  );
}

function Reveal({ id }: { id: string }) {
  const [witness, setWitness] = useState('');
  const reveal = useAction(sampling.reveal, {
    invalidates: [sampling.showDraw, sampling.draws, sampling.members],
  });
  return (
    <div className="stack">
      <TextInput
        label="A witness’ contribution"
        description="Something that nobody could know before, for example dice thrown before a witness. It goes into the draw and may be left empty."
        value={witness}
        maxLength={500}
        onChange={(event) => setWitness(event.currentTarget.value)}
      />
      {reveal.error && <Problem error={reveal.error} />}
      <Group>
        <Button
          loading={reveal.isPending}
          onClick={() => reveal.mutate({ params: { id }, body: { witness } })}
        >
          Reveal the seed and draw
        </Button>
      </Group>
    </div>
  );
}

const columns: Column<Check>[] = [
  { title: 'Part', head: true, cell: (row) => row.what },
  {
    title: 'Repeated',
    cell: (row) => <Tag tone={row.ok ? 'good' : 'bad'}>{row.ok ? 'The same' : 'Another'}</Tag>,
  },
  { title: 'Found', cell: (row) => <span className="code">{row.detail}</span> },
];

function Revealed({ id, result }: { id: string; result: NonNullable<Draw['result']> }) {
  const repeat = useAction(sampling.repeatHere);
  const params = { id };
  return (
    <div className="stack">
      <CopyText label="Seed" text={result.seed} />
      <CopyText label="Hash of the whole record (SHA-256)" text={result.recordHash} />
      <FactList
        facts={[
          ['Drawn', <Moment at={result.drawnAt} />],
          ['By', result.drawnBy],
          ['Witness’ contribution', result.witness || 'None'],
        ]}
      />
      <Group gap="xs">
        <Button component="a" href={urlOf(sampling.exportDraw, { params })} download={`draw-${id}.json`}>
          Export draw.json
        </Button>
        <Button variant="default" loading={repeat.isPending} onClick={() => repeat.mutate({ params })}>
          Repeat the draw here
        </Button>
      </Group>
      <p className="soft small">
        From the export alone, without this service:{' '}
        <code className="code">npm run repeat-draw -- draw.json</code>
      </p>
      {repeat.error && <Problem error={repeat.error} />}
      {repeat.data && (
        <>
          <p role="status">
            {repeat.data.checks.every(({ ok }) => ok)
              ? 'The draw was repeated: every part is the same.'
              : 'This is NOT the draw that the record states. Tell the administrator and keep everything as it is.'}
          </p>
          <RowsTable
            caption="What was repeated"
            columns={columns}
            rows={repeat.data.checks}
            keyOf={({ what }) => what}
          />
        </>
      )}
    </div>
  );
}
