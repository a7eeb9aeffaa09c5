import type { VisitSheet } from '@countercheck/contracts';
import { Quantity } from '../../../components/fields/index.ts';
import { FactList, type Fact } from '../../../components/page/index.ts';

const ventilationWords = {
  none: 'None',
  exhaust: 'Exhaust',
  supply: 'Supply',
  balanced: 'Balanced',
} as const;
const spaced = (words: string) => words.replaceAll('-', ' ');

/** What the house is, as the rules see it. */
export function HouseFacts({ sheet }: { sheet: VisitSheet }) {
  const { house, systems, rooms, appliances } = sheet.file;
  const of = (kind: string) =>
    rooms
      .filter((room) => room.kind === kind)
      .map(({ label }) => label)
      .join(', ');
  const facts: Fact[] = [
    ['Conditioned floor area', <Quantity key="a" kind="floorArea" value={house.conditionedFloorAreaFt2} />],
    ['Conditioned volume', <Quantity key="v" kind="volume" value={house.conditionedVolumeFt3} />],
    ['Bedrooms', `${house.bedrooms}${of('bedroom') ? `: ${of('bedroom')}` : ''}`],
    ['Storeys', house.storeys],
    ['Climate zone', house.climateZone],
    ['Foundation', spaced(house.foundation)],
    [
      'Ventilation',
      `${ventilationWords[house.ventilationKind]}${house.ventilatorDucted ? ', with ducts of its own' : ''}`,
    ],
    ['Designed ventilation', <Quantity key="d" kind="airflow" value={house.designedVentilationCfm} />],
    [
      'Systems',
      systems
        .map(
          ({ label, hasDucts, ductsInside }) =>
            `${label} (${hasDucts ? (ductsInside ? 'ducts inside' : 'ducts') : 'no ducts'})`,
        )
        .join(', '),
    ],
    ['Baths and kitchens', [of('bath'), of('kitchen')].filter(Boolean).join(', ')],
    [
      'Appliances',
      appliances
        .map(({ label, fuel, venting }) => `${label} (${spaced(fuel)}, ${spaced(venting)})`)
        .join(', '),
    ],
    ['Rule set', `${sheet.ruleSet.title}, ${sheet.ruleSet.version}`],
  ];
  return (
    <details className="fold fold-panel">
      <summary>House facts</summary>
      <FactList facts={facts} />
    </details>
  );
}
