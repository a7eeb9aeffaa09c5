/** What a rater does at what time on one day, in minutes since the first midnight of the plan. */
export interface PlannedVisit {
  visit: string;
  start: number;
  end: number;
  /** to get here from the place before, minutes and distance */
  driveMinutes: number;
  driveDistance: number;
}

export interface PlannedDay {
  rater: string;
  day: number;
  /** leaving the first place, as late as the first visit allows, and reaching the last one */
  leaves: number;
  returns: number;
  visits: PlannedVisit[];
  /** the break; null when the day has none or it falls outside the time from leaving to returning */
  pause: { from: number; to: number } | null;
  /** the whole day's driving, with the way back */
  driveMinutes: number;
  driveDistance: number;
}

export type UnplacedCode =
  | 'no-window'
  | 'no-qualification'
  | 'no-instrument'
  | 'no-rater-allowed'
  | 'nobody-works-then'
  | 'too-far'
  | 'no-time-left';

export interface Unplaced {
  visit: string;
  code: UnplacedCode;
  /** qualifications or kinds of instruments that nobody who is left has */
  missing: string[];
  /** how many raters could do it, had they the time */
  raters: number;
}

/** A day that keeps its fixed visits but takes no more, because these do not fit together as they stand. */
export interface ClosedDay {
  rater: string;
  day: number;
}

export interface Plan {
  days: PlannedDay[];
  unplaced: Unplaced[];
  closed: ClosedDay[];
  /** in the unit of the weights */
  cost: number;
  driveMinutes: number;
  driveDistance: number;
  iterations: number;
}
