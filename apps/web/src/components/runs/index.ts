export { RunBar, RunPanel, RunTag } from './run-panel.tsx';
export { whileAtWork } from './run-words.ts';
