import type { HouseDetail } from '@countercheck/contracts';
import { Quantity } from '../../../components/fields/index.ts';
import { FactList, Panel } from '../../../components/page/index.ts';
import { foundationWords, ventilationWords } from '../../../lib/words/house.ts';

export function FactsPanel({ house }: { house: HouseDetail }) {
  return (
    <Panel title="The house">
      <FactList
        facts={[
          ['Conditioned floor area', <Quantity kind="floorArea" value={house.conditionedFloorArea} />],
          ['Conditioned volume', <Quantity kind="volume" value={house.conditionedVolume} />],
          ['Bedrooms', house.bedrooms],
          ['Storeys', house.storeys],
          ['Foundation', foundationWords[house.foundation]],
          ['Climate zone', house.climateZone],
          [
            'Whole-house ventilation',
            `${ventilationWords[house.ventilationKind]}${house.ventilatorDucted ? ', own ducts' : ''}`,
          ],
          ['Designed ventilation rate', <Quantity kind="airflow" value={house.designedVentilation} />],
          ['Plan', house.plan?.name ?? null],
          ['Note', house.note],
        ]}
      />
    </Panel>
  );
}
