export { BuilderChoice } from './builder-choice.tsx';
export { HouseChoice } from './house-choice.tsx';
export { RaterChoice } from './rater-choice.tsx';
export { useInstrumentsFound } from './instruments-found.ts';
