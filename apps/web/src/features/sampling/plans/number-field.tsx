import { NumberInput } from '@mantine/core';

interface NumberFieldProps {
  label: string;
  value: number | string;
  onChange: (value: number | string) => void;
  min?: number;
  max?: number;
  decimals?: number;
}

/** A number that a plan is worked out from; whole unless told. */
export function NumberField({ decimals = 0, ...rest }: NumberFieldProps) {
  return <NumberInput {...rest} decimalScale={decimals} allowDecimal={decimals > 0} />;
}

/** What works out, or why it does not, in words. */
export function attempt<T>(work: () => T): { value: T } | { problem: string } {
  try {
    return { value: work() };
  } catch (error) {
    return { problem: error instanceof Error ? error.message : String(error) };
  }
}
