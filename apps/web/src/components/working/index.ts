export { Results } from './results.tsx';
export { SourceMark } from './source-mark.tsx';
export { stepsTo } from './steps-to.ts';
export { Steps, Working } from './working.tsx';
