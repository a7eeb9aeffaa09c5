export { Chart } from './chart.tsx';
export { Points } from './points.tsx';
export { evenReach, linearScale, logReach, logScale } from './scale.ts';
export { Band, Line, Rule, Spread } from './shapes.tsx';
