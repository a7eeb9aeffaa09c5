import { weighingReasons, type Draw, type WeighingReason } from '@countercheck/contracts';
import { CopyText } from '../../../components/fields/index.ts';
import { FactList, Moment, Panel } from '../../../components/page/index.ts';
import { methodWords, sizeText } from '../words.ts';

/** What was bound to in the first step. */
export function PublishedPanel({ draw }: { draw: Draw }) {
  const { commitment, committedAt, committedBy, method, size, algorithm, weighing } = draw;
  const points = weighing
    ? Object.entries(weighing).map(
        ([reason, value]) => `${weighingReasons[reason as WeighingReason].words}: ${value}`,
      )
    : [];
  return (
    <Panel title="Step 1: Seed published">
      <div className="stack">
        <CopyText label="Commitment (SHA-256 of the seed)" text={commitment} />
        <FactList
          facts={[
            ['Published', <Moment at={committedAt} />],
            ['By', committedBy],
            ['Method', methodWords[method]],
            ['Size', sizeText(size)],
            ['Algorithm', <code className="code">{algorithm}</code>],
            ...(points.length > 0 ? [['Points', points.join('; ')] as [string, string]] : []),
          ]}
        />
        <p className="soft small">
          Hand the commitment to whoever will check the draw, before the population is frozen. It fixes the
          seed and does not tell it.
        </p>
      </div>
    </Panel>
  );
}
