import type { HouseDetail } from '@countercheck/contracts';
import { StatusMark, type MarkedStatus } from '../../../components/marks/index.ts';
import { Panel } from '../../../components/page/index.ts';
import './detail.css';

const order: MarkedStatus[] = ['fail', 'waiting', 'pass', 'exempt', 'not-applicable'];

/** How many items of the house stand at which verdict. */
export function VerdictsPanel({ house }: { house: HouseDetail }) {
  return (
    <Panel title="Items of the rule set">
      <ul className="verdict-counts">
        {order.map((status) => (
          <li key={status}>
            <strong>{house.counts[status]}</strong>
            <StatusMark status={status} size="s" />
          </li>
        ))}
      </ul>
      <p className="small soft">
        By {house.ruleSet.title} {house.ruleSet.version}
        {house.revision > 1 && `, revision ${house.revision} of the file`}
      </p>
    </Panel>
  );
}
