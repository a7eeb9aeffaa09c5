export { RunBar, RunPanel, RunTag } from './run-panel.tsx';
export { isAtWork, whileAtWork } from './run-words.ts';
