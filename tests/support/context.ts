import { inject } from 'vitest';

export interface TestDatabases {
  superuserUrl: string;
  ownerPassword: string;
  appPassword: string;
  template: string;
}

declare module 'vitest' {
  interface ProvidedContext {
    databases: TestDatabases;
  }
}

export const databases = (): TestDatabases => inject('databases');
