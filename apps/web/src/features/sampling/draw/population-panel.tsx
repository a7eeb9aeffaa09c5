import { Button, Checkbox, Group, TextInput } from '@mantine/core';
import { sampling, visitKinds, type Draw } from '@countercheck/contracts';
import { useState } from 'react';
import { BuilderChoice } from '../../../components/choosers/index.ts';
import { Confirm } from '../../../components/feedback/index.ts';
import { Choice, CopyText, optionsOf } from '../../../components/fields/index.ts';
import { DateText, FactList, Moment, Panel } from '../../../components/page/index.ts';
import { Problem } from '../../../components/states/index.ts';
import { useAction, useRoute } from '../../../lib/query.ts';
import { useRole } from '../../../lib/session.ts';
import { visitKindWords } from '../../../lib/words/work.ts';
import { stateWords } from '../words.ts';

type Frame = NonNullable<Draw['frame']>;

export function PopulationPanel({ draw }: { draw: Draw }) {
  const mayDraw = useRole('quality');
  return (
    <Panel title="Step 2: Population">
      {draw.frame ? (
        <Frozen frame={draw.frame} />
      ) : mayDraw ? (
        <Freeze draw={draw} />
      ) : (
        <p>The quality manager freezes the population next.</p>
      )}
    </Panel>
  );
}

function Frozen({ frame }: { frame: Frame }) {
  const { filter, count, hash, rater, builder, frozenAt, frozenBy } = frame;
  return (
    <div className="stack">
      <FactList
        facts={[
          ['Files', count.toLocaleString('en-US')],
          ['Frozen', <Moment at={frozenAt} />],
          ['By', frozenBy],
          ['Which', stateWords[filter.state]],
          ['From', <DateText date={filter.from} />],
          ['To', <DateText date={filter.to} />],
          ['Rater', rater ?? 'Any'],
          ['Builder', builder ?? 'Any'],
          ['Visit kind', filter.kind ? visitKindWords[filter.kind] : 'Any'],
          ['Looked at before', filter.leaveOutDone ? 'Left out' : 'Included'],
        ]}
      />
      <CopyText label="Hash of the frozen list (SHA-256)" text={hash} />
    </div>
  );
}

const everything = {
  from: null as string | null,
  to: null as string | null,
  state: 'released' as Frame['filter']['state'],
  raterId: null as string | null,
  builderId: null as string | null,
  kind: null as Frame['filter']['kind'],
  leaveOutDone: true,
};

/** Filters the population, counts it, and freezes it. */
function Freeze({ draw }: { draw: Draw }) {
  const [filter, setFilter] = useState(everything);
  const [asking, setAsking] = useState(false);
  const count = useAction(sampling.countPopulation);
  const freeze = useAction(sampling.freezeFrame, { invalidates: [sampling.showDraw, sampling.draws] });
  const people = useRoute(sampling.obligations, {});
  const params = { id: draw.id };
  const change = (own: Partial<typeof everything>) => {
    setFilter({ ...filter, ...own });
    count.reset();
  };
  const kinds = visitKinds.filter((kind) => kind !== 'quality');
  return (
    <div className="stack">
      <div className="fields">
        <Choice
          label="Which files"
          options={optionsOf(stateWords)}
          value={filter.state}
          onChange={(state) => state && change({ state: state as typeof filter.state })}
        />
        <TextInput
          type="date"
          label="From"
          description="Day of release, or of submission"
          value={filter.from ?? ''}
          onChange={(event) => change({ from: event.currentTarget.value || null })}
        />
        <TextInput
          type="date"
          label="To"
          description="Included"
          value={filter.to ?? ''}
          onChange={(event) => change({ to: event.currentTarget.value || null })}
        />
        <Choice
          label="Rater"
          none="Every rater"
          options={(people.data?.raters ?? []).map(({ id, name }) => ({ value: id, label: name }))}
          value={filter.raterId}
          onChange={(raterId) => change({ raterId })}
        />
        <BuilderChoice value={filter.builderId} onChange={(builderId) => change({ builderId })} />
        <Choice
          label="Visit kind"
          none="Every kind"
          options={kinds.map((kind) => ({ value: kind, label: visitKindWords[kind] }))}
          value={filter.kind}
          onChange={(kind) => change({ kind: kind as typeof filter.kind })}
        />
      </div>
      <Checkbox
        label="Leave out what was looked at before, or waits for it"
        checked={filter.leaveOutDone}
        onChange={(event) => change({ leaveOutDone: event.currentTarget.checked })}
      />
      {count.error && <Problem error={count.error} />}
      <p role="status">
        {count.data &&
          (count.data.files === 0
            ? 'No file answers to this filter.'
            : `${count.data.files.toLocaleString('en-US')} files of ${count.data.raters} raters and ${count.data.builders} builders; ${count.data.wouldDraw.toLocaleString('en-US')} would be drawn.`)}
      </p>
      <Group gap="xs">
        <Button
          variant="default"
          loading={count.isPending}
          onClick={() => count.mutate({ params, body: filter })}
        >
          Count the files
        </Button>
        <Button disabled={!count.data || count.data.files === 0} onClick={() => setAsking(true)}>
          Freeze the population
        </Button>
      </Group>
      <Confirm
        title="Freeze the population?"
        opened={asking}
        onClose={() => setAsking(false)}
        action="Freeze it"
        onConfirm={() => freeze.mutateAsync({ params, body: filter })}
      >
        <p>
          The list of files is kept as it is now, with its hash. It cannot be changed or taken back; another
          population needs another draw.
        </p>
      </Confirm>
    </div>
  );
}
