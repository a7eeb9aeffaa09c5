import type { VisitSite } from '@countercheck/contracts';
import { Caution } from '../../../components/marks/index.ts';
import { FactList } from '../../../components/page/index.ts';
import { showClock } from '../../../lib/dates.ts';
import { accessWords, readinessWords } from '../../../lib/words/scheduling.ts';

/** How the rater gets in, and what the site said that is not ready. */
export function SiteFacts({ site }: { site: VisitSite }) {
  const { access, accessNote, openFrom, openTo, note, notReady } = site;
  return (
    <>
      {notReady.length > 0 && (
        <Caution title="The site says: not ready">
          <ul>
            {notReady.map((point) => (
              <li key={point.kind}>
                Not yet: {readinessWords[point.kind].toLowerCase()}
                {point.note && `, ${point.note}`} ({point.byName})
              </li>
            ))}
          </ul>
        </Caution>
      )}
      <FactList
        facts={
          [
            ['Getting in', access && accessWords[access]],
            ['Key or contact', accessNote],
            ['Somebody is there', openFrom && openTo && `${showClock(openFrom)} – ${showClock(openTo)}`],
            ['Asked with', note],
          ].filter(([, value]) => value) as [string, string][]
        }
      />
    </>
  );
}
