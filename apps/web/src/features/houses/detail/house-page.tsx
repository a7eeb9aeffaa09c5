import { Button } from '@mantine/core';
import { houses } from '@countercheck/contracts';
import { useState } from 'react';
import { Stage } from '../../../components/marks/index.ts';
import { ButtonLink, Page } from '../../../components/page/index.ts';
import { Asked } from '../../../components/states/index.ts';
import { onDemand } from '../../../lib/on-demand.tsx';
import { useParam } from '../../../lib/page-route.ts';
import { useRoute } from '../../../lib/query.ts';
import { useMe } from '../../../lib/session.ts';
import { EventsPanel } from './events-panel.tsx';
import { FailedItemsPanel } from './failed-items-panel.tsx';
import { FactsPanel } from './facts-panel.tsx';
import { FiguresPanel } from './figures-panel.tsx';
import { LinksPanel } from './links-panel.tsx';
import { PartsPanel } from './parts-panel.tsx';
import { VerdictsPanel } from './verdicts-panel.tsx';
import { VisitsPanel } from './visits-panel.tsx';

const BookDialog = onDemand(
  async () => (await import('../../../components/booking/book-dialog.tsx')).BookDialog,
);

export default function HousePage() {
  const id = useParam('id');
  const query = useRoute(houses.show, { params: { id } });
  const { role } = useMe();
  const keeper = role === 'office' || role === 'administrator';
  const [booking, setBooking] = useState(false);
  return (
    <Asked query={query}>
      {(house) => (
        <Page
          title={house.address}
          back={{ to: '/houses', label: 'Houses' }}
          lead={
            <>
              <Stage stage={house.stage} />
              <span>
                Lot {house.lot}, {house.community.name}, {house.builder.name}
              </span>
            </>
          }
          actions={
            <>
              {role !== 'rater' && (
                <ButtonLink to={`/review/${id}`} variant="default">
                  Whole file
                </ButtonLink>
              )}
              {keeper && house.stage !== 'released' && (
                <>
                  <ButtonLink to={`/houses/${id}/edit`} variant="default">
                    Change
                  </ButtonLink>
                  <Button onClick={() => setBooking(true)}>Book a visit</Button>
                </>
              )}
            </>
          }
        >
          <div className="columns">
            <VerdictsPanel house={house} />
            <FactsPanel house={house} />
          </div>
          <FailedItemsPanel house={house} />
          <LinksPanel house={house} keeper={keeper} />
          <FiguresPanel house={house} opener={role === 'quality' || keeper} />
          <VisitsPanel houseId={id} />
          <PartsPanel house={house} />
          <EventsPanel houseId={id} />
          {booking && <BookDialog house={house} onClose={() => setBooking(false)} />}
        </Page>
      )}
    </Asked>
  );
}
