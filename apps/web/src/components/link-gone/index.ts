export { LinkGone } from './link-gone.tsx';
