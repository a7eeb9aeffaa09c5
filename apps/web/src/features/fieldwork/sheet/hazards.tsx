import type { VisitSheet } from '@countercheck/contracts';
import { testOutlines } from '@countercheck/measurement';
import type { ItemVerdict } from '@countercheck/rules';
import { Caution } from '../../../components/marks/index.ts';

const always = [
  'Local codes and licensed practice come first; where they ask for more, do that.',
  'Test ambient air for carbon monoxide on entering, and keep a running monitor on your body.',
  'Open combustion and live equipment only if you are licensed to.',
];

/** What can hurt somebody comes before anything that is to be read. */
export function Hazards({ sheet, verdicts }: { sheet: VisitSheet; verdicts: readonly ItemVerdict[] }) {
  const applying = verdicts.filter(({ status }) => status !== 'not-applicable');
  const fromTests = applying.flatMap(({ tests }) => tests.flatMap((test) => testOutlines[test].cautions));
  // The first line says it for all tests.
  const others = fromTests.filter((words) => !words.startsWith('Local codes'));
  const cautions = [...new Set([...always, ...others])];
  return (
    <>
      {sheet.stopWork.map((words) => (
        <Caution key={words} weight="stop" title="Stop work">
          <p>{words}</p>
        </Caution>
      ))}
      <Caution title="Before you begin">
        <details className="fold" open={sheet.visit.state === 'booked'}>
          <summary>
            {always[0]} <span className="soft">({cautions.length} cautions)</span>
          </summary>
          <ul>
            {cautions.slice(1).map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </details>
      </Caution>
    </>
  );
}
