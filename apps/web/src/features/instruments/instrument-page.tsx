import { Button } from '@mantine/core';
import type { Instrument } from '@countercheck/contracts';
import { nativeUnit } from '@countercheck/measurement';
import { useState } from 'react';
import { Dialog } from '../../components/feedback/index.ts';
import { FactList, Page, Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
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
  return (
    <Asked query={query}>
      {(instrument) =>
        instrument ? (
          <InstrumentSheet instrument={instrument} />
        ) : (
          <Empty title="There is no such instrument" />
        )
      }
    </Asked>
  );
}

function InstrumentSheet({ instrument }: { instrument: Instrument }) {
  const keeper = useRole('office', 'quality', 'administrator');
  const [open, setOpen] = useState<'change' | 'calibrate' | null>(null);
  const close = () => setOpen(null);
  const unit = nativeUnit(instrument.kind);
  return (
    <Page
      title={instrument.label}
      back={{ to: '/instruments', label: 'Instruments' }}
      lead={<CalibrationTag instrument={instrument} />}
      actions={
        keeper && (
          <>
            <Button variant="default" onClick={() => setOpen('change')}>
              Change
            </Button>
            <Button onClick={() => setOpen('calibrate')}>Record a calibration</Button>
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
      {open === 'change' && (
        <Dialog title={`Change ${instrument.label}`} onClose={close}>
          <InstrumentForm instrument={instrument} onDone={close} onCancel={close} />
        </Dialog>
      )}
      {open === 'calibrate' && (
        <Dialog title={`Calibration of ${instrument.label}`} onClose={close} wide>
          <CalibrationForm instrument={instrument} onDone={close} />
        </Dialog>
      )}
    </Page>
  );
}
