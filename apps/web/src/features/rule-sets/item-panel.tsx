import { testOutlines } from '@countercheck/measurement';
import type { Criterion, Item } from '@countercheck/rules';
import { Caution, Tag } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { useUnitSystem } from '../../lib/units/unit-system.ts';
import { tradeWords } from '../../lib/words/people.ts';
import { criterionWords } from './criterion-words.ts';
import { limitWords } from './limit-words.ts';
import { SourceLine } from './source-line.tsx';
import './rule-sets.css';

interface ItemPanelProps {
  item: Item;
  /** titles of the set's items by key */
  titles: Map<string, string>;
}

/** One item as people read it: what is asked, by which limit, from which source. */
export function ItemPanel({ item, titles }: ItemPanelProps) {
  const system = useUnitSystem();
  const list = (criteria: readonly Criterion[]) => (
    <ul>
      {criteria.map((criterion) => {
        const words = criterionWords(criterion, item, titles, system);
        return <li key={words}>{words}</li>;
      })}
    </ul>
  );
  return (
    <Panel
      title={item.title}
      actions={
        <>
          <Tag>{item.stage === 'rough' ? 'Rough-in' : 'Final'}</Tag>
          {item.safety && <Tag tone="bad">Safety</Tag>}
        </>
      }
    >
      <div className="rule-item">
        {item.limit && (
          <p className="rule-limit">
            <span className="soft">Limit</span> {limitWords(item.limit, item, titles, system)}
          </p>
        )}
        <SourceLine source={item.source} />
        {item.note && <p>{item.note}</p>}
        <p className="small soft">
          Tested by: {item.tests.map((test) => testOutlines[test].title).join(', ')}. Corrected by:{' '}
          {tradeWords[item.trade]}.
        </p>
        {item.appliesWhen && <Group title="Applies when all of these hold">{list(item.appliesWhen)}</Group>}
        {item.appliesWhenAny && (
          <Group title="Applies when one of these holds">{list(item.appliesWhenAny)}</Group>
        )}
        {item.options.map((option) => (
          <Group key={option.option} title={`Passes by: ${option.title}`}>
            {list(option.require)}
            {option.when && <Group title="only where">{list(option.when)}</Group>}
            {option.source && <SourceLine source={option.source} />}
          </Group>
        ))}
        {item.exemptions?.map((exemption) => (
          <Group key={exemption.exemption} title={`Exempt: ${exemption.title}`}>
            {list(exemption.require)}
            {exemption.source && <SourceLine source={exemption.source} />}
          </Group>
        ))}
        {item.stopWork?.map((stop) => (
          <Caution key={stop.title} title={`Work stops: ${stop.title}`}>
            {list(stop.require)}
            <SourceLine source={stop.source} />
          </Caution>
        ))}
      </div>
    </Panel>
  );
}

function Group({ title, children }: { title: string; children: React.ReactNode }) {
  return (
    <div>
      <h3>{title}</h3>
      {children}
    </div>
  );
}
