import { Button, Tabs } from '@mantine/core';
import { IconDownload } from '@tabler/icons-react';
import { useMemo } from 'react';
import { Page } from '../../../components/page/index.ts';
import { oneOf, useListSearch } from '../../../lib/list-search.ts';
import { BoardFilters } from './board-filters.tsx';
import { FirstTimeTable } from './first-time-table.tsx';
import { GroupsPart } from './groups-part.tsx';
import { RepeatsTable } from './repeats-table.tsx';
import { WaitingPart } from './waiting-part.tsx';
import './board.css';

const views = ['groups', 'first-time', 'repeats', 'waiting'] as const;
const viewWords: Record<(typeof views)[number], string> = {
  groups: 'What failed',
  'first-time': 'Passed the first time',
  repeats: 'Again and again',
  waiting: 'Time to reinspection',
};
const filterKeys = ['from', 'to', 'builderId', 'trade', 'item'] as const;

/** What fails how often, with whom, and how long it waits. */
export default function BoardPage() {
  const { values, change } = useListSearch();
  const view = oneOf(views, values.view) ?? 'groups';
  const filter = useMemo(
    () => Object.fromEntries(filterKeys.flatMap((key) => (values[key] ? [[key, values[key]]] : []))),
    [values],
  );
  const query = new URLSearchParams(filter).toString();
  return (
    <Page
      title="What fails"
      back={{ to: '/failed-items', label: 'Failed items' }}
      lead="How often, with whom, and how long it waits to be looked at again."
      actions={
        <Button
          component="a"
          variant="default"
          href={`/api/failed-items/export${query && `?${query}`}`}
          download
          leftSection={<IconDownload size={16} aria-hidden="true" />}
        >
          Save as CSV
        </Button>
      }
    >
      <BoardFilters />
      <Tabs value={view} onChange={(next) => change({ view: next, by: null })} keepMounted={false}>
        <Tabs.List>
          {views.map((each) => (
            <Tabs.Tab key={each} value={each}>
              {viewWords[each]}
            </Tabs.Tab>
          ))}
        </Tabs.List>
        <Tabs.Panel className="board-part" value="groups">
          <GroupsPart filter={filter} />
        </Tabs.Panel>
        <Tabs.Panel className="board-part" value="first-time">
          <FirstTimeTable filter={filter} />
        </Tabs.Panel>
        <Tabs.Panel className="board-part" value="repeats">
          <RepeatsTable filter={filter} />
        </Tabs.Panel>
        <Tabs.Panel className="board-part" value="waiting">
          <WaitingPart filter={filter} />
        </Tabs.Panel>
      </Tabs>
    </Page>
  );
}
