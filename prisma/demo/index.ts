export { demoPassword, demoSignIns } from './sign-ins.ts';
export type { SealedFile } from './write/events.ts';
export { writeDemo, type Demo } from './write/index.ts';
export type { YearStory } from './year/stories.ts';
