import type { HouseDetail } from '@countercheck/contracts';
import { Quantity } from '../../../components/fields/index.ts';
import { Panel } from '../../../components/page/index.ts';
import { Empty } from '../../../components/states/index.ts';
import { RowsTable, type Column } from '../../../components/table/index.ts';
import { applianceWords, fuelWords, roomWords, ventingWords } from '../../../lib/words/house.ts';

const systems: Column<HouseDetail['systems'][number]>[] = [
  { title: 'System', head: true, cell: (row) => row.label },
  { title: 'Kind', cell: (row) => row.kind },
  {
    title: 'Ducts',
    cell: (row) => (row.hasDucts ? (row.ductsInside ? 'Visibly inside' : 'Not all inside') : 'None'),
  },
  {
    title: 'Air handler at rough-in',
    cell: (row) =>
      row.airHandlerAtRough === null ? '–' : row.airHandlerAtRough ? 'In place' : 'Not in place',
  },
  {
    title: 'Design airflow',
    figure: true,
    cell: (row) => <Quantity kind="airflow" value={row.designAirflow} />,
  },
];
const rooms: Column<HouseDetail['rooms'][number]>[] = [
  { title: 'Room', head: true, cell: (row) => row.label },
  { title: 'Kind', cell: (row) => roomWords[row.kind] },
  {
    title: 'Supply airflow',
    figure: true,
    cell: (row) => <Quantity kind="airflow" value={row.supplyFlow} />,
  },
  { title: 'Volume', figure: true, cell: (row) => <Quantity kind="volume" value={row.volume} /> },
];
const appliances: Column<HouseDetail['appliances'][number]>[] = [
  { title: 'Appliance', head: true, cell: (row) => row.label },
  { title: 'Kind', cell: (row) => applianceWords[row.kind] },
  { title: 'Fuel', cell: (row) => fuelWords[row.fuel] },
  { title: 'Venting', cell: (row) => ventingWords[row.venting] },
  { title: 'Location', cell: (row) => row.location ?? '–' },
];

/** What there is in the house to test. */
export function PartsPanel({ house }: { house: HouseDetail }) {
  if (house.systems.length + house.rooms.length + house.appliances.length === 0) {
    return (
      <Panel title="Parts to test" flush>
        <Empty title="No part entered yet">Without parts only the house as a whole can be tested.</Empty>
      </Panel>
    );
  }
  return (
    <div className="columns">
      <Panel title="Heating and cooling systems" flush>
        <RowsTable caption="Systems" columns={systems} rows={house.systems} keyOf={(row) => row.id} />
      </Panel>
      <Panel title="Rooms" flush>
        <RowsTable caption="Rooms" columns={rooms} rows={house.rooms} keyOf={(row) => row.id} />
      </Panel>
      <Panel title="Appliances" flush>
        <RowsTable
          caption="Appliances"
          columns={appliances}
          rows={house.appliances}
          keyOf={(row) => row.id}
        />
      </Panel>
    </div>
  );
}
