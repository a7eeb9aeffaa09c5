export { heldRaters, refuseHeldRater, type HeldRater } from '../booking-rules/index.ts';
export { orderRetests, type Ordered, type RetestOrder } from '../retests/index.ts';
export { orderFileReviews, type FileReviewOrder } from './file-reviews/order.ts';
