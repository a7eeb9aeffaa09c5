import type { SubjectKind, TestKey } from '@countercheck/measurement';
import { isNumeric, type Numeric } from '../catalog/entry.ts';
import { measuredEntry } from '../catalog/measured.ts';
import { rawBehind, type RawBehind } from '../catalog/raw.ts';

/** The quantity that a rater reads behind one that is scaled by the house's size or the room's airflow. */
export interface RawQuantity {
  readonly name: string;
  readonly entry: Numeric;
  readonly scale: RawBehind['scale'];
}

/** The raw quantity behind a measured one; null when the quantity is itself what is read. */
export function rawOf(name: string, test: TestKey, key: string, kind: SubjectKind): RawQuantity | null {
  const found = rawBehind(test, key);
  const entry = found && measuredEntry(test, found.key, kind);
  if (!found || !entry || !isNumeric(entry)) return null;
  return { name: name.slice(0, name.length - key.length) + found.key, entry, scale: found.scale };
}
