export { Confirm } from './confirm.tsx';
export { Dialog, FormBody } from './form-dialog.tsx';
export { said } from './said.ts';
