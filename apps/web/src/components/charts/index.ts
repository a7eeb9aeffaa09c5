export { Chart, type Frame } from './chart.tsx';
export { type ChartPoint, Points } from './points.tsx';
export { evenReach, linearScale, logReach, logScale, type Scale } from './scale.ts';
export { Band, Line, Rule, Spread } from './shapes.tsx';
