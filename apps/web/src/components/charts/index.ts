export { Chart } from './chart.tsx';
export { Points } from './points.tsx';
export { evenReach, linearScale, logReach, logScale } from './scale.ts';
export { Band, Bars, Dots, Line, Rule, Spread } from './shapes.tsx';
