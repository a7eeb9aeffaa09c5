import { quantities, type QuantityKind } from '@countercheck/measurement';

const extraDecimals = 4;

function grouped(digits: string): string {
  const [whole = '', part] = digits.split('.');
  const withCommas = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return part === undefined ? withCommas : `${withCommas}.${part}`;
}

/** A number with at most so many decimals, without trailing zeros, thousands parted by commas. */
export function sayNumber(value: number, decimals: number): string {
  const digits = Math.abs(value).toFixed(decimals);
  const short = digits.includes('.') ? digits.replace(/\.?0+$/, '') : digits;
  return `${value < 0 && Number(short) !== 0 ? '-' : ''}${grouped(short)}`;
}

/** A number with its unit's label in stored units, e.g. "240 cfm"; counts stand alone. */
export function withUnit(number: string, quantity: QuantityKind): string {
  // "4.01 1/h" cannot be read aloud
  const label = quantity === 'airChangeRate' ? 'per hour' : quantities[quantity].us.label;
  return label === '' ? number : `${number} ${label}`;
}

/** A limit or a figure somebody entered: two decimals more than a reading shows, so that 0.0935 stays so. */
export function sayExact(value: number, quantity: QuantityKind): string {
  return sayNumber(value, quantities[quantity].us.decimals + 2);
}

/**
 * A figure that a reading must reach, rounded towards passing: down where it is the most, up where it is the
 * least. With as many decimals as `sayExact`.
 */
export function saySafe(
  value: number,
  quantity: QuantityKind,
  side: 'at-most' | 'at-least' | 'above' | 'exactly',
): string {
  const decimals = quantities[quantity].us.decimals + 2;
  const scaled = value * 10 ** decimals;
  // binary arithmetic must not cost a step: 93.50000000000001 is 93.5
  const near = Math.round(scaled);
  const steps =
    Math.abs(scaled - near) <= 1e-9 * Math.max(1, Math.abs(scaled))
      ? near
      : side === 'at-most'
        ? Math.floor(scaled)
        : Math.ceil(scaled);
  return sayNumber(steps / 10 ** decimals, decimals);
}

/**
 * A reading beside its bounds: rounded as the quantity is shown, with as many decimals more as are needed
 * for the rounded number to stand on the same side of each bound ("110.2 %", not "110 %; limit 110 %").
 */
export function sayBeside(value: number, quantity: QuantityKind, bounds: readonly (number | null)[]): string {
  const { decimals } = quantities[quantity].us;
  const sides = bounds.flatMap((bound) => (bound === null ? [] : [bound]));
  const equal = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.abs(b);
  // a figure that somebody entered with one decimal more is shown as entered
  const first = equal(Number(value.toFixed(decimals + 1)), value) ? 1 : 0;
  for (let more = first; more < extraDecimals; more++) {
    const rounded = Number(value.toFixed(decimals + more));
    const kept = sides.every((bound) =>
      equal(value, bound)
        ? equal(rounded, bound)
        : !equal(rounded, bound) && rounded > bound === value > bound,
    );
    if (kept) return sayNumber(value, decimals + more);
  }
  return sayNumber(value, decimals + extraDecimals);
}
