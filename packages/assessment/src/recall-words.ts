import { nativeUnit, plainNumber, type InstrumentKind } from '@countercheck/measurement';
import type { InstrumentError } from './recall.ts';

const much = (value: number) => (value < 0 ? 'too little' : 'too much');
const shown: Record<string, string> = { degF: '°F' };

/** What was wrong with an instrument, as a clause for people: "it showed 3 Pa too much". Never throws. */
export function instrumentErrorWords(error: InstrumentError, kind: InstrumentKind): string {
  switch (error.kind) {
    case 'offset': {
      const unit = nativeUnit(kind);
      return `it showed ${plainNumber(Math.abs(error.value))} ${shown[unit] ?? unit} ${much(error.value)}`;
    }
    case 'gain':
      return `it showed ${plainNumber(Math.abs(error.percent))} % ${much(error.percent)}`;
    case 'coefficient': {
      const ranges = error.ranges.map(
        ({ range, factor }) => `${plainNumber(factor)} times the actual flow on ${range}`,
      );
      return `the flow worked out with its coefficients was ${ranges.join(', ')}`;
    }
  }
}
