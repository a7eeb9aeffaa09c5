export { Confirm } from './confirm.tsx';
export { ConfirmWords } from './confirm-words.tsx';
export { DialogButton } from './dialog-button.tsx';
export { Dialog, FormBody } from './form-dialog.tsx';
export { said } from './said.ts';
