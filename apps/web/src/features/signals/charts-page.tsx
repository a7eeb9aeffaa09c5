import { chartItems, chartSubjects, signals } from '@countercheck/contracts';
import { Choice, optionsOf } from '../../components/fields/index.ts';
import { Page } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { Charts } from './charts.tsx';
import './signals.css';
import { WhoseChoice } from './whose-choice.tsx';
import { itemWords } from './words.ts';

const subjectWords = { rater: 'A rater', installer: 'An installer', instrument: 'An instrument' };

/** How the readings of a rater, of an installer's houses or of an instrument run over time. */
export default function ChartsPage() {
  const { values, change } = useListSearch();
  const subject = oneOf(chartSubjects, values['subject']) ?? 'rater';
  const item = oneOf(chartItems, values['item']) ?? 'supply-static';
  const id = values['id'] ?? null;
  const query = useRoute(
    signals.chart,
    { query: { subject, item, id: id ?? '' } },
    { keepPrevious: true, enabled: id !== null },
  );
  return (
    <Page
      title="Control charts"
      back={{ to: '/signals', label: 'Signals' }}
      lead="Readings against what was reported for the same houses, in the order in which they were taken."
    >
      <div className="filters" role="search" aria-label="What is charted">
        <Choice
          label="Chart of"
          options={optionsOf(subjectWords)}
          value={subject}
          onChange={(next) => change({ subject: next, id: null })}
        />
        <WhoseChoice subject={subject} value={id} onChange={(next) => change({ id: next })} />
        <Choice
          label="Item"
          options={optionsOf(itemWords)}
          value={item}
          onChange={(next) => change({ item: next })}
        />
      </div>
      {id === null ? (
        <Empty title={`Choose ${subjectWords[subject].toLowerCase()} to see how the readings run`} />
      ) : (
        <Asked query={query}>{(chart) => <Charts chart={chart} />}</Asked>
      )}
    </Page>
  );
}
