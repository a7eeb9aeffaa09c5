import type { Instrument } from '@countercheck/contracts';
import { Tag } from '../../components/marks/index.ts';
import { DateText } from '../../components/page/index.ts';

/** Whether readings taken with it today count, and until when. */
export function CalibrationTag({ instrument }: { instrument: Instrument }) {
  const newest = instrument.calibrations[0];
  if (!instrument.active) return <Tag>Not in use</Tag>;
  if (instrument.inCalibration) {
    return (
      <span>
        <Tag tone="good">In calibration</Tag>{' '}
        {newest && (
          <span className="small soft">
            to <DateText date={newest.dueOn} />
          </span>
        )}
      </span>
    );
  }
  return (
    <span>
      <Tag tone="bad">{newest ? 'Calibration overdue' : 'Never calibrated'}</Tag>{' '}
      {newest && (
        <span className="small soft">
          since <DateText date={newest.dueOn} />
        </span>
      )}
    </span>
  );
}
