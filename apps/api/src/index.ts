export { buildApp } from './app.ts';
export { readConfig, type Config } from './kernel/config.ts';
