/** A number as it stood on a display. */
export interface Shown {
  /** which number of which test, e.g. `bath-exhaust flow` */
  field: string;
  value: number;
  /** the display's step, in the unit of the value; null when the instrument's is not known in that unit */
  step: number | null;
  /** set by the rater rather than found, such as the pressure that ducts are brought to: says nothing by its digit */
  setPoint: boolean;
}

/** What keeps a reading from being one of this instrument on that day, in the order of how much it weighs. */
export type InstrumentDoubt =
  'finer-than-display' | 'outside-range' | 'not-calibrated' | 'calibration-overdue';

/** What one reading of a rater came to, and what it can be held against. */
export interface Figure {
  readingId: string;
  houseId: string;
  raterId: string;
  instrumentId: string | null;
  /** what was measured, e.g. `supply-static` */
  item: string;
  /** which of its kind in the house, so that the same place of two houses can be compared */
  place: string;
  /** houses with the same are built by one plan and alike; null when it is not known */
  plan: string | null;
  /** time of the device, ms since 1970 */
  at: number;
  /** the result in its stored unit; null when it could not be worked out */
  value: number | null;
  /** standard uncertainty of the value by the instrument's stated accuracy; null when unknown */
  uncertainty: number | null;
  /** what the installer signed for, same unit; null when nothing was reported */
  reported: number | null;
  installerId: string | null;
  /** the limit that decides the item, same unit, and the side on which a house passes */
  limit: { value: number; inside: 'below' | 'above' } | null;
  /** another reading of the same thing replaced it during the same visit */
  readAgain: boolean;
  shown: Shown[];
  doubts: InstrumentDoubt[];
}

/** A house on a rater's way. */
export interface Stop {
  houseId: string;
  latitude: number | null;
  longitude: number | null;
}

export interface Photo {
  id: string;
  houseId: string;
  raterId: string;
  /** ms since 1970; null when the photo does not say */
  takenAt: number | null;
  /** when it was handed in, ms since 1970 */
  addedAt: number;
  /** when the visit was begun and submitted, ms since 1970 */
  visit: { from: number; to: number } | null;
  /** 256 bits as 64 hexadecimal digits; null while it was not worked out */
  hash: string | null;
}

/** What one rater handed in over a period. */
export interface RaterYear {
  raterId: string;
  figures: Figure[];
  stops: Map<string, Stop>;
  photos: Photo[];
}
