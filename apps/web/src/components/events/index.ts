export { EventTable } from './event-table.tsx';
