import type { HouseStage } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { stageOrder, stageWords } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { useRole } from '../../lib/session.ts';

/** How many houses stand at each stage, longest bar for the most. */
export function StagesPanel({ stages }: { stages: { stage: HouseStage; houses: number }[] }) {
  const builder = useRole('builder');
  const most = Math.max(1, ...stages.map(({ houses }) => houses));
  return (
    <Panel title="Houses by stage">
      <ul className="stages">
        {stageOrder.map((stage) => {
          const houses = stages.find((each) => each.stage === stage)?.houses ?? 0;
          return (
            <li key={stage}>
              <Link to={builder ? '/my-houses' : '/houses'} search={{ stage }}>
                {stageWords[stage]}
              </Link>
              <span className="stages-bar" aria-hidden="true">
                <i style={{ width: `${(100 * houses) / most}%` }} />
              </span>
              <span className="figure">{houses}</span>
            </li>
          );
        })}
      </ul>
    </Panel>
  );
}
