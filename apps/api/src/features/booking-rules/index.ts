export { measuresAgain, openRetest, tellsNothing } from './blind-retest.ts';
export { daysOff, offOn, type TimeOff } from './days-off.ts';
export { firstRaters } from './first-rater.ts';
export { heldRaters, refuseHeldRater, type HeldRater } from './held-raters.ts';
export { placeOfStart, wholePlace } from './start-place.ts';
export { giveRetestBack, refuseFirstRater, refuseMeasuringTwice, takeUpRetest } from './second-rater.ts';
