export { AskVisitDialog } from './ask-form.tsx';
export { ReadinessForm } from './readiness-form.tsx';
export { DueTag } from './due-tag.tsx';
