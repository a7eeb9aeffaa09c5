import { Button, Checkbox, Group } from '@mantine/core';
import { instruments, scheduling, type BoardVisit } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { CancelDialog } from '../../../components/booking/index.ts';
import { Dialog, said } from '../../../components/feedback/index.ts';
import { Caution } from '../../../components/marks/index.ts';
import { FactList, Moment } from '../../../components/page/index.ts';
import { Asked, Problem } from '../../../components/states/index.ts';
import { useAction, useRoute } from '../../../lib/query.ts';
import { useRole } from '../../../lib/session.ts';
import { visitKindWords, visitStateWords } from '../../../lib/words/work.ts';
import { movable } from './place.ts';

interface VisitDialogProps {
  entry: BoardVisit;
  onMove: () => void;
  onClose: () => void;
}

/** One visit of the board: what is doubtful, what goes along, and what can be done about it. */
export function VisitDialog({ entry, onMove, onClose }: VisitDialogProps) {
  const { visit, warnings } = entry;
  const keeper = useRole('office', 'administrator');
  const [cancelling, setCancelling] = useState(false);
  const [choosing, setChoosing] = useState(false);
  if (cancelling) return <CancelDialog visit={visit} onClose={onClose} />;
  return (
    <Dialog title={visit.house.address} onClose={onClose}>
      <div className="stack">
        {warnings.length > 0 && (
          <Caution title="Warnings">
            <ul>
              {warnings.map(({ code, text }) => (
                <li key={`${code} ${text}`}>{text}</li>
              ))}
            </ul>
          </Caution>
        )}
        <FactList
          facts={[
            ['Kind', visitKindWords[visit.kind]],
            ['State', visitStateWords[visit.state]],
            ['Rater', visit.rater.name],
            ['From', <Moment key="from" at={visit.startsAt} />],
            ['To', <Moment key="to" at={visit.endsAt} />],
            ['Builder', visit.house.builder.name],
            ['Note', visit.note],
          ]}
        />
        {choosing ? (
          <InstrumentsChoice entry={entry} onDone={onClose} />
        ) : (
          <p>
            <strong>Goes along:</strong>{' '}
            {entry.instruments.map(({ label }) => label).join(', ') || 'nothing that is known'}
          </p>
        )}
        <Group gap="xs">
          {keeper && movable(entry) && (
            <>
              <Button onClick={onMove}>Move</Button>
              {!choosing && (
                <Button variant="default" onClick={() => setChoosing(true)}>
                  Choose instruments
                </Button>
              )}
              <Button variant="default" color="red" onClick={() => setCancelling(true)}>
                Cancel the visit
              </Button>
            </>
          )}
          <Link to={`/houses/${visit.house.id}`}>House</Link>
        </Group>
      </div>
    </Dialog>
  );
}

/** Which instruments go along; none chosen means: what is needed of the rater's kit. */
function InstrumentsChoice({ entry, onDone }: { entry: BoardVisit; onDone: () => void }) {
  const query = useRoute(instruments.list, { query: { pageSize: 100 } });
  const save = useAction(scheduling.setInstruments, { invalidates: [scheduling.board, scheduling.tryVisit] });
  const [chosen, setChosen] = useState(entry.instruments.map(({ id }) => id));
  return (
    <Asked query={query}>
      {({ items }) => (
        <div className="stack">
          <Checkbox.Group label="Instruments that go along" value={chosen} onChange={setChosen}>
            <div className="board-instruments">
              {items
                .filter(({ active }) => active)
                .map(({ id, label }) => (
                  <Checkbox key={id} value={id} label={label} />
                ))}
            </div>
          </Checkbox.Group>
          {save.isError && <Problem error={save.error} />}
          <div>
            <Button
              loading={save.isPending}
              onClick={() =>
                void save
                  .mutateAsync({ params: { id: entry.visit.id }, body: { instrumentIds: chosen } })
                  .then(() => {
                    said('Instruments saved');
                    onDone();
                  })
              }
            >
              Save instruments
            </Button>
          </div>
        </div>
      )}
    </Asked>
  );
}
