import type { UnitSystem } from '@countercheck/measurement';
import { createContext, use } from 'react';

/** The unit system that the pages show. The installer's page has no account and keeps its own choice. */
export const UnitSystemContext = createContext<UnitSystem>('us');

export const useUnitSystem = () => use(UnitSystemContext);
