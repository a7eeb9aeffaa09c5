export { PlainField } from './plain-field.tsx';
export { PlainForm } from './plain-form.tsx';
export { CodeForm, PasswordForm } from './sign-in-forms.tsx';
export { usePlainForm } from './use-plain-form.ts';
