import type { ItemVerdict } from '@countercheck/rules';
import { Caution } from '../../../components/marks/index.ts';
import { PhotoStrip } from '../photos/photo-strip.tsx';
import { WhyVerdict } from '../why/why-verdict.tsx';
import { useSheetView } from './sheet-context.ts';
import { TestSection } from './test-section.tsx';
import { testPlaces } from './test-places.ts';
import { fileOf } from './verdicts.ts';

function why({ trace }: ItemVerdict): string {
  const held = trace.applies.filter(({ holds }) => holds).map(({ words }) => words.replace(/: yes$/, ''));
  return held.length > 0 ? `Applies because ${held.join('; ')}` : 'Applies to every house';
}

/** An item opened: its cautions, its tests, why it stands as it does, and its photos. */
export default function ItemBody({ verdict }: { verdict: ItemVerdict }) {
  const { sheet, mayRecord } = useSheetView();
  const places = testPlaces(verdict, fileOf(sheet));
  const photos = sheet.photos.filter(
    ({ item, subjectId }) => item === verdict.item && subjectId === verdict.subjectId,
  );
  return (
    <div className="stack item-body">
      <p className="soft">{why(verdict)}.</p>
      {verdict.cautions.map((caution) => (
        <Caution key={caution}>{caution}</Caution>
      ))}
      {places.map((place) => (
        <TestSection
          key={`${place.test}/${place.subject.id}`}
          place={place}
          verdict={verdict}
          alone={places.length === 1}
        />
      ))}
      {verdict.status === 'fail' && <p>Usual correction: {verdict.correction}</p>}
      <WhyVerdict verdict={verdict} />
      <PhotoStrip
        visitId={sheet.visit.id}
        houseId={sheet.visit.house.id}
        item={verdict.item}
        subjectId={verdict.subjectId}
        name={`${verdict.title}, ${verdict.subjectLabel}`}
        photos={photos}
        mayAdd={mayRecord}
      />
    </div>
  );
}
