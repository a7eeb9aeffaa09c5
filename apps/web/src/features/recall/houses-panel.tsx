import { recall, type RecallHouse } from '@countercheck/contracts';
import { plainNumber, testOutlines } from '@countercheck/measurement';
import { HouseName, Stage, StatusMark, Tag } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { ChoiceFilter, DataTable, type Column } from '../../components/table/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { OpenRevision } from './open-revision.tsx';

function Flips({ flips }: Pick<RecallHouse, 'flips'>) {
  if (flips.length === 0) return 'No verdict flips';
  return (
    <ul className="plain-list">
      {flips.map((each) => (
        <li key={`${each.item} ${each.subjectLabel}`}>
          {each.title}, {each.subjectLabel}: <StatusMark status={each.before} size="s" /> →{' '}
          <StatusMark status={each.after} size="s" />
          <span className="small soft"> {each.reasonAfter}</span>
        </li>
      ))}
    </ul>
  );
}

function Readings({ readings }: Pick<RecallHouse, 'readings'>) {
  return (
    <details>
      <summary>
        {readings.length} {readings.length === 1 ? 'reading' : 'readings'}
      </summary>
      <ul className="plain-list small">
        {readings.map((each) => (
          <li key={each.readingId}>
            {testOutlines[each.test].title}, {each.subjectLabel}, {each.takenOn}:{' '}
            {each.whyNot ??
              (each.results.length === 0
                ? 'unchanged'
                : each.results
                    .map(
                      ({ label, unit, before, after }) =>
                        `${label} ${plainNumber(before)} → ${after === null ? 'none' : plainNumber(after)} ${unit}`,
                    )
                    .join('; '))}
          </li>
        ))}
      </ul>
    </details>
  );
}

const shown = [
  { value: 'revisit', label: 'To measure again' },
  { value: 'flipped', label: 'With a verdict that flips' },
  { value: 'sealed', label: 'Released' },
] as const;

/** Every house with a reading that the recall concerns, those to measure again first. */
export function HousesPanel({ id, label }: { id: string; label: string }) {
  const { values, page } = useListSearch();
  const show = oneOf(['revisit', 'flipped', 'sealed'], values.show);
  const query = useRoute(recall.houses, { params: { id }, query: { page, show } }, { keepPrevious: true });
  const columns: Column<RecallHouse>[] = [
    {
      title: 'House',
      head: true,
      cell: (row) => <HouseName house={row} to={`/houses/${row.id}`} />,
    },
    { title: 'Builder', cell: (row) => row.builder.name },
    { title: 'Stage', cell: (row) => <Stage stage={row.stage} /> },
    {
      title: 'What to do',
      cell: (row) =>
        row.revisit ? (
          <div className="stack">
            <div>
              <Tag tone="bad">Measure again</Tag>
            </div>
            {row.stage === 'released' && (
              <OpenRevision house={row} reason={`${label} was found out of tolerance.`} />
            )}
          </div>
        ) : (
          <Tag tone="good">Nothing</Tag>
        ),
    },
    {
      title: 'Verdicts that flip, and readings',
      cell: (row) => (
        <>
          <Flips flips={row.flips} />
          <Readings readings={row.readings} />
        </>
      ),
    },
  ];
  return (
    <Panel title="Houses concerned">
      <DataTable
        caption="Houses concerned"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={<ChoiceFilter label="Show" name="show" none="Every house concerned" options={shown} />}
        empty="No such house"
      />
    </Panel>
  );
}
