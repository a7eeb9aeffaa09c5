export * from './criterion.ts';
export * from './item.ts';
export * from './jsonSchema.ts';
export * from './limit.ts';
export * from './set.ts';
export * from './source.ts';
