export { ButtonLink } from './button-link.tsx';
export { DateText, Moment } from './moment.tsx';
export { type Fact, FactList, Page, Panel } from './page.tsx';
