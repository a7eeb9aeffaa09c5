/** What orders a second look at finished work; below both who finishes work and who looks at it. */
export { orderFileReviews } from './order-file-reviews.ts';
export { orderForNewFile, orderRaised } from './raised.ts';
