import {
  inspectionLevels,
  inspectionSeverities,
  lotPlan,
  qualityLimits,
  switchingRules,
  type InspectionLevel,
  type QualityLimit,
  type Severity,
} from '@countercheck/sampling';
import { useState } from 'react';
import { Choice } from '../../../components/fields/index.ts';
import { Caution, Tag } from '../../../components/marks/index.ts';
import { FactList, Panel } from '../../../components/page/index.ts';
import { attempt, NumberField } from './number-field.tsx';
import { Switching } from './switching.tsx';

const severityWords: Record<Severity, string> = {
  normal: 'Normal',
  tightened: 'Tightened',
  reduced: 'Reduced',
};

/** Single plans by lot size, with the switching rules to try out. */
export function LotPanel() {
  const [lot, setLot] = useState<number | string>(200);
  const [level, setLevel] = useState<InspectionLevel>('II');
  const [limit, setLimit] = useState<QualityLimit>(2.5);
  const [severity, setSeverity] = useState<Severity>('normal');
  const made = attempt(() => lotPlan({ lot: Number(lot), level, limit, severity }));
  return (
    <Panel title="Lots: single plans of ISO 2859-1">
      <div className="stack">
        <div className="fields">
          <NumberField label="Units in the lot" min={2} value={lot} onChange={setLot} />
          <Choice
            label="Level"
            options={inspectionLevels.map((value) => ({ value, label: value }))}
            value={level}
            onChange={(value) => setLevel(value as InspectionLevel)}
          />
          <Choice
            label="Acceptable quality limit, % nonconforming"
            options={qualityLimits.map((value) => ({ value: String(value), label: String(value) }))}
            value={String(limit)}
            onChange={(value) => setLimit(Number(value) as QualityLimit)}
          />
          <Choice
            label="Inspection"
            options={inspectionSeverities.map((value) => ({ value, label: severityWords[value] }))}
            value={severity}
            onChange={(value) => setSeverity(value as Severity)}
          />
        </div>
        {'problem' in made ? (
          <p role="status">{made.problem}</p>
        ) : (
          <>
            <div role="status">
              <FactList
                facts={[
                  [
                    'Look at',
                    <strong>
                      {made.value.sample.toLocaleString('en-US')}{' '}
                      {made.value.wholeLot ? 'units, the whole lot' : 'units'}
                    </strong>,
                  ],
                  ['Accept at', `${made.value.accept} nonconforming or fewer`],
                  ['Do not accept from', `${made.value.reject} on`],
                  [
                    'Code letter',
                    made.value.letter === made.value.usedLetter
                      ? made.value.letter
                      : `${made.value.letter}; the arrow leads to ${made.value.usedLetter}`,
                  ],
                ]}
              />
              <p className="row small">
                <Tag tone={made.value.mark.mark === 'seen' ? 'good' : 'plain'}>
                  {made.value.mark.mark === 'seen' ? 'Published' : 'Computed'}
                </Tag>
                <span>{made.value.mark.source}</span>
              </p>
            </div>
            {made.value.mark.caution && <Caution>{made.value.mark.caution}</Caution>}
            <Switching />
          </>
        )}
        <p className="soft small">
          The text of the standard could not be read. Switching: {switchingRules.tighten.source} and{' '}
          {switchingRules.reduce.source}, from memory.
        </p>
      </div>
    </Panel>
  );
}
