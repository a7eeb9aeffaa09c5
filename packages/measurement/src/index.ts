export * from './quantities.ts';
export * from './types.ts';
