/** The few distributions that a phone works with, in a twentieth of a general library's weight. */
export { normalCdf, normalQuantile } from './normal.ts';
export { betaQuantile } from './beta.ts';
export { studentQuantile } from './student.ts';
