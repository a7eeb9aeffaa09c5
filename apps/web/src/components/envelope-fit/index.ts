export { EnvelopeFit } from './lazy-fit.tsx';
