import { Button } from '@mantine/core';
import { replay, type Replay } from '@countercheck/contracts';
import { useNavigate } from '@tanstack/react-router';
import { stageWords } from '../../components/marks/index.ts';
import { DateText, FactList, Page, Panel } from '../../components/page/index.ts';
import { RunPanel, whileAtWork } from '../../components/runs/index.ts';
import { Asked } from '../../components/states/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { HousesPanel } from './houses-panel.tsx';
import { ResultPanels } from './result-panels.tsx';

export default function ReplayPage() {
  const id = useParam('id');
  const query = useRoute(replay.show, { params: { id } }, { refetchInterval: whileAtWork });
  return <Asked query={query}>{(asked) => <ReplaySheet asked={asked} />}</Asked>;
}

function ReplaySheet({ asked }: { asked: Replay }) {
  const navigate = useNavigate();
  const invalidates = [replay.show, replay.list];
  const cancel = useAction(replay.cancel, { invalidates });
  const again = useAction(replay.again, {
    invalidates,
    onDone: ({ id }) => navigate({ to: `/replays/${id}` }),
  });
  const { ruleSet, filter, result, id } = asked;
  const params = { id };
  return (
    <Page
      title={`${ruleSet.title} ${ruleSet.version} over past houses`}
      back={{ to: '/replays', label: 'Replays' }}
      lead={asked.note}
    >
      <RunPanel
        run={asked}
        what="houses"
        onCancel={() => cancel.mutate({ params })}
        cancelling={cancel.isPending}
        error={cancel.error ?? again.error}
      >
        <Button
          size="xs"
          variant="default"
          loading={again.isPending}
          onClick={() => again.mutate({ params })}
        >
          Start it again
        </Button>
      </RunPanel>
      <Panel title="Houses asked about">
        <FactList
          facts={[
            ['Last visited from', <DateText date={filter.from} />],
            ['Last visited to', <DateText date={filter.to} />],
            ['Builder', filter.builder?.name ?? 'Any'],
            ['Community', filter.community?.name ?? 'Any'],
            ['Stage', filter.stage ? stageWords[filter.stage] : 'Any'],
            [
              'Judged today by',
              filter.ruleSet ? `${filter.ruleSet.title} ${filter.ruleSet.version}` : 'Any rule set',
            ],
          ]}
        />
      </Panel>
      {result && (
        <>
          <ResultPanels result={result} />
          <HousesPanel id={id} result={result} />
        </>
      )}
    </Page>
  );
}
