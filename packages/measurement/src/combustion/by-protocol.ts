import { combustionProtocols } from './thresholds.ts';
import type { CombustionProtocol, CompanyFigures } from './thresholds.ts';

/** What every judgement has to know besides the reading. */
export interface ByProtocol {
  /** the text that is worked by; there is no default, because they differ */
  protocol: CombustionProtocol;
  company?: CompanyFigures;
  standardUncertainty?: number | null;
}

/** The names that a protocol can have. */
export const protocols = Object.keys(combustionProtocols);
