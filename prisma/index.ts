export * from './generated/client.ts';
