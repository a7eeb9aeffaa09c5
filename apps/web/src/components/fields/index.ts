export { Choice, type Option, optionsOf } from './choice.tsx';
export { CopyText } from './copy-text.tsx';
export { Quantity } from './quantity.tsx';
export { QuantityInput } from './quantity-input.tsx';
export { found } from './found.ts';
export { SearchChoice } from './search-choice.tsx';
