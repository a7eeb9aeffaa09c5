import { service } from '@countercheck/contracts';
import type { RuleSet } from '@countercheck/rules';
import { DateText, FactList, Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { ItemPanel } from './item-panel.tsx';

/** One rule set to read: every item with its limit, its source and how sure the company is of it. */
export default function RuleSetPage() {
  const query = useRoute(service.ruleSet, { params: { id: useParam('id') } });
  return (
    <Asked query={query}>
      {(set) => {
        // The server loads and checks a set before it publishes it.
        const body = set.body as RuleSet;
        const titles = new Map(body.items.map(({ item, title }) => [item, title]));
        const open = body.items.filter(({ source }) => !source.confirmed).length;
        return (
          <Page
            title={`${set.title} ${set.version}`}
            back={{ to: '/rule-sets', label: 'Rule sets' }}
            lead={body.description}
          >
            <Panel title="Version">
              <FactList
                facts={[
                  ['In force from', <DateText date={set.effectiveOn} />],
                  ['Published', <Moment at={set.publishedAt} />],
                  ['Houses', set.houses],
                  ['Limits not confirmed', `${open} of ${body.items.length}`],
                  ['Rests on', body.inherits ? `${body.inherits.key} ${body.inherits.version}` : null],
                  ['Hash', <span className="code">{set.hash}</span>],
                ]}
              />
            </Panel>
            {body.items.map((item) => (
              <ItemPanel key={item.item} item={item} titles={titles} />
            ))}
          </Page>
        );
      }}
    </Asked>
  );
}
