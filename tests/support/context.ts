import { inject } from 'vitest';

export interface TestDatabases {
  superuserUrl: string;
  ownerPassword: string;
  appPassword: string;
  template: string;
  /** Only where the project asked for it: loading the demo takes a while. */
  demoTemplate?: string;
  demoProblem?: string;
}

declare module 'vitest' {
  interface ProvidedContext {
    databases: TestDatabases;
  }
}

export const databases = (): TestDatabases => inject('databases');
