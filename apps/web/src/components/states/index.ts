export { Asked } from './asked.tsx';
export { Empty, Loading, Problem } from './states.tsx';
