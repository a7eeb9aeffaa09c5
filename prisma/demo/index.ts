export { demoPassword, demoSignIns } from './sign-ins.ts';
export { writeDemo, type Demo } from './write/index.ts';
