export { SendBack } from './send-back.tsx';
