import { sampling, type Draw } from '@countercheck/contracts';
import { Tag } from '../../components/marks/index.ts';
import { Page } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { FilesPanel } from './draw/files-panel.tsx';
import { OrdersPanel } from './draw/orders-panel.tsx';
import { PopulationPanel } from './draw/population-panel.tsx';
import { PublishedPanel } from './draw/published-panel.tsx';
import { RevealPanel } from './draw/reveal-panel.tsx';
import { StrataPanel } from './draw/strata-panel.tsx';
import { purposeWords, stepWords } from './words.ts';
import './sampling.css';

const steps = ['published', 'frozen', 'drawn', 'ordered'] as const;

export default function DrawPage() {
  const id = useParam('id');
  const query = useRoute(sampling.showDraw, { params: { id } });
  return <Asked query={query}>{(draw) => <DrawSheet draw={draw} />}</Asked>;
}

function DrawSheet({ draw }: { draw: Draw }) {
  const reached = steps.indexOf(draw.step);
  return (
    <Page
      title={draw.title}
      back={{ to: '/draws', label: 'Draws' }}
      lead={
        <>
          {purposeWords[draw.purpose]}, by a draw in four steps, each taken once:
          <ol className="steps" aria-label="Steps">
            {steps.map((step, at) => (
              <li key={step} aria-current={at === reached + 1 ? 'step' : undefined}>
                {at + 1}. {stepWords[step]}
                <Tag tone={at <= reached ? 'good' : at === reached + 1 ? 'brass' : 'plain'}>
                  {at <= reached ? 'Done' : at === reached + 1 ? 'Next' : 'To come'}
                </Tag>
              </li>
            ))}
          </ol>
        </>
      }
    >
      {draw.result && draw.frame && <OrdersPanel draw={draw} />}
      {draw.frame && <RevealPanel draw={draw} />}
      <PopulationPanel draw={draw} />
      <PublishedPanel draw={draw} />
      {draw.result?.strata && <StrataPanel strata={draw.result.strata} />}
      {draw.result && <FilesPanel draw={draw} />}
    </Page>
  );
}
