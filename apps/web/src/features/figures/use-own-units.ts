import type { UnitSystem } from '@countercheck/measurement';
import { useState } from 'react';

const key = 'figures-units';

/** The units of somebody without an account, kept on the own device. */
export function useOwnUnits(): [UnitSystem, (system: UnitSystem) => void] {
  const [system, setSystem] = useState<UnitSystem>(() => {
    try {
      return localStorage.getItem(key) === 'si' ? 'si' : 'us';
    } catch {
      return 'us';
    }
  });
  const choose = (next: UnitSystem) => {
    setSystem(next);
    try {
      localStorage.setItem(key, next);
    } catch {
      // The choice then lasts as long as the page.
    }
  };
  return [system, choose];
}
