export { orderRetests, type Ordered, type RetestOrder } from './order.ts';
