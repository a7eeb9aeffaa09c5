export const signalKeys = [
  'agreement',
  'belonging',
  'last-digits',
  'repeats',
  'bunching',
  'spread',
  'pace',
  'instrument',
  'photos',
] as const;
export type SignalKey = (typeof signalKeys)[number];
