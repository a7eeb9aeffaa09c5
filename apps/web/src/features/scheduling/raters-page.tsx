import { Button } from '@mantine/core';
import { scheduling, type RaterProfile } from '@countercheck/contracts';
import { useState } from 'react';
import { Tag } from '../../components/marks/index.ts';
import { Page } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { useRoute } from '../../lib/query.ts';
import { qualificationWords } from '../../lib/words/scheduling.ts';
import { DaysOffPanel } from './days-off-panel.tsx';
import { hoursWords } from './hours-words.ts';
import { ProfileDialog } from './profile-dialog.tsx';

/** When the raters work, from where they start, what they may do and carry. */
export default function RatersPage() {
  const query = useRoute(scheduling.profiles, {});
  const [changing, setChanging] = useState<RaterProfile | null>(null);
  return (
    <Page title="Raters" lead="Working hours, qualifications and kits; the week board warns by them">
      <Asked query={query}>
        {(profiles) =>
          profiles.length === 0 ? (
            <Empty title="Nobody works as a rater yet" />
          ) : (
            <RowsTable
              caption="Raters"
              rows={profiles}
              keyOf={(row) => row.rater.id}
              columns={[
                {
                  title: 'Rater',
                  head: true,
                  cell: (row) => (
                    <>
                      {row.rater.name} {row.held && <Tag tone="bad">Held</Tag>}
                    </>
                  ),
                },
                {
                  title: 'Works',
                  cell: (row) => hoursWords(row.workingHours),
                },
                {
                  title: 'May do',
                  cell: (row) => row.qualifications.map((each) => qualificationWords[each]).join(', ') || '–',
                },
                { title: 'Starts', cell: (row) => (row.startsAtHome ? 'At home' : 'At the office') },
                { title: 'Kit', cell: (row) => row.instruments.map(({ label }) => label).join(', ') || '–' },
                {
                  title: 'Actions',
                  cell: (row) => (
                    <Button
                      size="compact-sm"
                      variant="default"
                      aria-label={`Change ${row.rater.name}`}
                      onClick={() => setChanging(row)}
                    >
                      Change
                    </Button>
                  ),
                },
              ]}
            />
          )
        }
      </Asked>
      <DaysOffPanel />
      {changing && <ProfileDialog profile={changing} onClose={() => setChanging(null)} />}
    </Page>
  );
}
