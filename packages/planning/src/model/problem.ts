/** A span of time, in minutes since the first midnight of the plan. */
export interface Span {
  from: number;
  to: number;
}

export interface PlanVisit {
  id: string;
  /** index into the places */
  place: number;
  /** length, in minutes */
  minutes: number;
  /**
   * the whole visit lies inside one of these; none = no visit is possible. Where a working day holds parts of
   * several, the search uses the longest part.
   */
  windows: readonly Span[];
  /** kinds of instruments and qualifications that its rater must have */
  instruments: readonly string[];
  qualifications: readonly string[];
  /** raters who may not do it, such as whoever did the work that it looks at */
  notRaters: readonly string[];
  /** a rater who should rather not do it */
  avoidRater: string | null;
  /** 1 = usual; the cost of leaving the visit out is multiplied by it */
  priority: number;
  /** from which minute waiting costs, such as the earliest day; null = waiting costs nothing */
  wantedFrom: number | null;
  /** what it takes of a working day's room; 1 where the room is a number of visits */
  size: number;
  /** done, under way, or not to be touched: stays with this rater at this minute */
  fixed: Appointment | null;
  /** agreed already: may be changed, at a cost */
  promised: Appointment | null;
}

export interface Appointment {
  rater: string;
  /** minute at which the visit starts */
  start: number;
}

export interface WorkingDay {
  /** counted from 0, the first day of the plan */
  day: number;
  /** from leaving the first place to reaching the last one, in minutes since the first midnight of the plan */
  from: number;
  to: number;
  /** indexes into the places */
  startPlace: number;
  endPlace: number;
  /** one break that starts inside its span; before, between or after visits, or on the road */
  pause: { minutes: number; startsWithin: Span } | null;
  /** kinds that are there on this day; those of the rater when left out */
  instruments?: readonly string[];
  /** how much the day takes, in the sizes of visits; null = as much as fits */
  room: number | null;
}

export interface PlanRater {
  id: string;
  qualifications: readonly string[];
  instruments: readonly string[];
  days: readonly WorkingDay[];
  /** part of the work that is meant for this rater, beside those of the others; 0 = none is meant */
  share: number;
}

/** Between all places, row by row from the first to the last: entry `from × places + to`. */
export interface TravelTable {
  places: number;
  /** minutes of driving */
  minutes: Float64Array;
  /** distance, in whatever unit the weights of the objective count */
  distance: Float64Array;
}

export interface PlanProblem {
  visits: readonly PlanVisit[];
  raters: readonly PlanRater[];
  travel: TravelTable;
  weights: PlanWeights;
  /** visits start on multiples of this many minutes; 0 = at any time. What is fixed or promised keeps its minute. */
  startStep: number;
}

/** What a plan costs. Only comparisons count, so the unit is free; the usual one is a minute of driving. */
export interface PlanWeights {
  /** a minute of driving */
  driveMinute: number;
  /** a unit of distance */
  distance: number;
  /** leaving out a visit of priority 1 */
  unplaced: number;
  /** a visit by the rater who should rather not do it */
  avoidedRater: number;
  /** each whole day that a visit waits after it was wanted */
  waitingDay: number;
  /** a minute of visits above a rater's fair share of all visits asked for */
  overShareMinute: number;
  /** the same, once more, beyond a quarter above the fair share */
  farOverShareMinute: number;
  /** what was promised goes to another rater, to another day, or starts later than promised */
  movedRater: number;
  movedDay: number;
  movedLater: number;
  /** minutes that a promised visit may start late without being a change */
  promiseTolerance: number;
}
