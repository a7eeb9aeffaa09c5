export { orderOfWork, type OrderedWork, type Work } from './order.ts';
export type { Stretch } from './set-ups.ts';
