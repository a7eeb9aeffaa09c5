import type { HouseStage } from '@countercheck/contracts';
import './marks.css';

/** Stages in words, in the order a house usually goes through them. */
export const stageWords: Record<HouseStage, string> = {
  awaiting_figures: "Awaiting installer's figures",
  ready_to_book: 'Ready to book',
  booked: 'Visit booked',
  in_testing: 'In testing',
  corrections: 'In correction',
  reinspection_asked: 'Reinspection asked for',
  in_review: 'With quality manager',
  returned: 'Returned with findings',
  released: 'Released',
};
export const stageOrder = Object.keys(stageWords) as HouseStage[];

/** Where a house stands, on a short scale with its words. */
export function Stage({ stage }: { stage: HouseStage }) {
  const reached = stageOrder.indexOf(stage);
  return (
    <span className={`stage stage-${stage}`}>
      <span className="stage-scale" aria-hidden="true">
        {stageOrder.map((each, index) => (
          <i key={each} className={index < reached ? 'past' : index === reached ? 'here' : ''} />
        ))}
      </span>
      {stageWords[stage]}
    </span>
  );
}
