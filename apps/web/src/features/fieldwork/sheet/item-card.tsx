import type { ItemVerdict } from '@countercheck/rules';
import { useState } from 'react';
import { Caution, CloseMark, StatusMark, Tag } from '../../../components/marks/index.ts';
import { useUnitSystem } from '../../../lib/units/unit-system.ts';
import { PhotoStrip } from '../photos/photo-strip.tsx';
import { comparisonFigures } from '../why/figures.ts';
import { WhyVerdict } from '../why/why-verdict.tsx';
import { useSheetView } from './sheet-context.ts';
import { TestSection } from './test-section.tsx';
import { testPlaces } from './test-places.ts';
import { fileOf, verdictKey } from './verdicts.ts';

function why({ trace }: ItemVerdict): string {
  const held = trace.applies.filter(({ holds }) => holds).map(({ words }) => words.replace(/: yes$/, ''));
  return held.length > 0 ? `Applies because ${held.join('; ')}` : 'Applies to every house';
}

function Body({ verdict }: { verdict: ItemVerdict }) {
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

interface Props {
  verdict: ItemVerdict;
  startsOpen: boolean;
  onToggle(open: boolean): void;
}

/** One item of the sheet, closed to a line and opened to its tests. */
export function ItemCard({ verdict, startsOpen, onToggle }: Props) {
  const [open, setOpen] = useState(startsOpen);
  const system = useUnitSystem();
  const figures = system === 'si' && verdict.headline ? comparisonFigures(verdict.headline, system) : null;
  return (
    <details
      id={verdictKey(verdict)}
      className={`item item-${verdict.status}`}
      open={open}
      onToggle={(event) => {
        if (event.target !== event.currentTarget) return;
        setOpen(event.currentTarget.open);
        onToggle(event.currentTarget.open);
      }}
    >
      <summary>
        <span className="item-name opens">
          <strong>{verdict.title}</strong> <span className="soft">{verdict.subjectLabel}</span>
        </span>
        <span className="item-marks">
          {verdict.safety && <Tag tone="brass">Safety</Tag>}
          <CloseMark verdict={verdict} />
          <StatusMark status={verdict.status} />
        </span>
        <span className="item-reason">
          {verdict.reason}
          {figures && <span className="soft"> ({figures})</span>}
          {verdict.closeToLimit && verdict.closeWords && ` ${verdict.closeWords}`}
        </span>
      </summary>
      {open && <Body verdict={verdict} />}
    </details>
  );
}
