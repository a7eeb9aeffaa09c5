import { Button, Group, TextInput } from '@mantine/core';
import { sampling, type Draw } from '@countercheck/contracts';
import { useState } from 'react';
import { DateText, FactList, Moment, Panel } from '../../../components/page/index.ts';
import { Problem } from '../../../components/states/index.ts';
import { clockOf } from '../../../lib/dates.ts';
import { useAction } from '../../../lib/query.ts';
import { useMe, useRole } from '../../../lib/session.ts';

const what = (draw: Draw) => (draw.purpose === 'file-review' ? 'reviews' : 're-tests');

export function OrdersPanel({ draw }: { draw: Draw }) {
  const mayDraw = useRole('quality');
  return (
    <Panel title="Step 4: Work ordered">
      {draw.orders ? (
        <Ordered draw={draw} orders={draw.orders} />
      ) : mayDraw ? (
        <Order draw={draw} />
      ) : (
        <p>The quality manager orders the {what(draw)} next.</p>
      )}
    </Panel>
  );
}

function Order({ draw }: { draw: Draw }) {
  const zone = useMe().company.timezone;
  const [dueOn, setDueOn] = useState(() => clockOf(new Date(Date.now() + 30 * 86_400_000), zone).date);
  const order = useAction(sampling.orderWork, {
    invalidates: [sampling.showDraw, sampling.draws, sampling.members, sampling.obligations],
  });
  return (
    <div className="stack">
      <p>
        {draw.drawn} of {draw.population?.toLocaleString('en-US')} files were drawn. The {what(draw)} are
        counted to the raters whose work they are.
      </p>
      <TextInput
        type="date"
        label="To be done by"
        value={dueOn}
        onChange={(event) => setDueOn(event.currentTarget.value)}
      />
      {order.error && <Problem error={order.error} />}
      <Group>
        <Button
          loading={order.isPending}
          disabled={dueOn === ''}
          onClick={() => order.mutate({ params: { id: draw.id }, body: { dueOn } })}
        >
          Order the {what(draw)}
        </Button>
      </Group>
    </div>
  );
}

function Ordered({ draw, orders }: { draw: Draw; orders: NonNullable<Draw['orders']> }) {
  const { estimate, population } = draw;
  const rounded = (value: number) => value.toLocaleString('en-US', { maximumFractionDigits: 1 });
  const found = draw.purpose === 'file-review' ? 'With findings' : 'That differ';
  return (
    <div className="stack">
      <FactList
        facts={[
          ['Ordered', `${orders.ordered} ${what(draw)}`],
          ['Were on order already', String(orders.already)],
          ['To be done by', <DateText date={orders.dueOn} />],
          ['Ordered on', <Moment at={orders.orderedAt} />],
          ['By', orders.orderedBy],
        ]}
      />
      {estimate && (
        <>
          <h3>What the draw says</h3>
          <FactList
            facts={[
              ['Done', `${estimate.looked} of ${draw.drawn}`],
              [found, String(estimate.found)],
              [
                'In the whole population',
                estimate.total === null
                  ? 'Not yet'
                  : `about ${rounded(estimate.total)} of ${population?.toLocaleString('en-US')}${
                      estimate.low === null || estimate.high === null
                        ? ''
                        : ` (${rounded(estimate.low)} to ${rounded(estimate.high)})`
                    }`,
              ],
            ]}
          />
          <p className="soft small">{estimate.basis}.</p>
        </>
      )}
    </div>
  );
}
