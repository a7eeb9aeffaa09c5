export { type AnyForm } from './any-form.ts';
export { errorsOf } from './errors-of.ts';
export { focusFirstBad } from './focus-first-bad.ts';
export { type ContractForm, useContractForm } from './use-contract-form.ts';
