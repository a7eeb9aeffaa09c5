import type { UseFormReturnType } from '@mantine/form';

/** A form for fields that are named by their path only; what else it has is not their business. */
// eslint-disable-next-line @typescript-eslint/no-explicit-any -- the library's type allows no "at least these"
export type AnyForm = UseFormReturnType<any>;
