import type { Instrument } from '@countercheck/contracts';
import { nativeUnit } from '@countercheck/measurement';
import { DialogButton } from '../../components/feedback/index.ts';
import { FactList, Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRole } from '../../lib/session.ts';
import { instrumentWords } from '../../lib/words/instruments.ts';
import { CalibrationForm } from './calibration-form.tsx';
import { CalibrationTag } from './calibration-tag.tsx';
import { CalibrationsPanel } from './calibrations-panel.tsx';
import { InstrumentForm } from './instrument-form.tsx';
import { useInstrument } from '../../lib/use-instrument.ts';

export default function InstrumentPage() {
  const query = useInstrument(useParam('id'));
  return <Asked query={query}>{(instrument) => <InstrumentSheet instrument={instrument} />}</Asked>;
}

function InstrumentSheet({ instrument }: { instrument: Instrument }) {
  const keeper = useRole('office', 'quality', 'administrator');
  const unit = nativeUnit(instrument.kind);
  return (
    <Page
      title={instrument.label}
      back={{ to: '/instruments', label: 'Instruments' }}
      lead={<CalibrationTag instrument={instrument} />}
      actions={
        keeper && (
          <>
            <DialogButton label="Change" title={`Change ${instrument.label}`} variant="default">
              {(close) => <InstrumentForm instrument={instrument} onDone={close} onCancel={close} />}
            </DialogButton>
            <DialogButton label="Record a calibration" title={`Calibration of ${instrument.label}`} wide>
              {(close) => <CalibrationForm instrument={instrument} onDone={close} />}
            </DialogButton>
          </>
        )
      }
    >
      <Panel title="Instrument">
        <FactList
          facts={[
            ['Kind', instrumentWords[instrument.kind]],
            ['Serial number', instrument.serial],
            [
              'Accuracy',
              `${instrument.accuracyPercent} % of reading, at least ${instrument.accuracyAbsolute} ${unit}`,
            ],
            [
              'Smallest step shown',
              instrument.resolution === null ? null : `${instrument.resolution} ${unit}`,
            ],
            ['Note', instrument.note],
          ]}
        />
      </Panel>
      <CalibrationsPanel instrument={instrument} />
    </Page>
  );
}
