import type { Reading } from '@countercheck/contracts';
import { EnvelopeFit } from '../../components/envelope-fit/index.ts';
import { factsOn } from '../../lib/instrument-facts.ts';
import { useInstrument } from '../../lib/use-instrument.ts';

/** The drawing of an envelope test in the file; fan pressures are read with the instrument as it was on that day. */
export function FitBeside({ reading }: { reading: Reading }) {
  const needed = reading.raw.rows.some(({ values }) => values['fanPressure'] !== undefined);
  const { data: found } = useInstrument(needed ? (reading.instrument?.id ?? '') : '');
  const day = reading.instrument?.calibratedOn ?? '';
  return (
    <EnvelopeFit test={reading.test} raw={reading.raw} instrument={found ? factsOn(found, day) : null} />
  );
}
