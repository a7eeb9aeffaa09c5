export { OrderDialog } from './order-dialog.tsx';
export { SecondLookList } from './second-look-list.tsx';
