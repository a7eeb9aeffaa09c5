import type { BuilderDetail } from '@countercheck/contracts';

export interface BuilderPanelProps {
  builder: BuilderDetail;
  /** may change what the panel shows */
  keeper: boolean;
}
