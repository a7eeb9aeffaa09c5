import { failedItems, houses, review, visits } from '@countercheck/contracts';

/** What a deed on a visit changes for other pages. */
export const touched = [
  visits.list,
  visits.show,
  houses.list,
  houses.show,
  failedItems.list,
  review.file,
  review.queue,
];
