import {
  displayUnit,
  quantities,
  roundTo,
  toDisplay,
  type QuantityKind,
  type UnitSystem,
} from '@countercheck/measurement';

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

/** Stored units are those shown in `us`; some quantities are shown alike in both systems. */
function convertsIn(quantity: QuantityKind, system: UnitSystem): boolean {
  return system === 'si' && displayUnit(quantity, 'si') !== displayUnit(quantity, 'us');
}

const shownIn = (value: number, quantity: QuantityKind, system: UnitSystem) =>
  convertsIn(quantity, system) ? toDisplay(quantity, value, system) : value;

/** A difference of two values, which unlike them has no zero of its own: 9 °F more are 5 °C more. In stored units. */
export function apartIn(difference: number, quantity: QuantityKind, system: UnitSystem): number {
  return convertsIn(quantity, system)
    ? toDisplay(quantity, difference, system) - toDisplay(quantity, 0, system)
    : difference;
}

/** A number with its unit's label, e.g. "240 cfm"; counts stand alone. */
export function withUnit(number: string, quantity: QuantityKind, system: UnitSystem = 'us'): string {
  // "4.01 1/h" cannot be read aloud
  const label = quantity === 'airChangeRate' ? 'per hour' : quantities[quantity][system].label;
  return label === '' ? number : `${number} ${label}`;
}

/**
 * How many decimals more than a reading a limit shows: two as it was entered, so that 0.0935 stays so. What was
 * converted has digits without end; it shows one, or as many more as keep it on its side of the value.
 */
function limitDecimals(
  quantity: QuantityKind,
  system: UnitSystem,
  value: number | null,
  bounds: readonly (number | null)[],
): number {
  if (!convertsIn(quantity, system)) return 2;
  const { decimals } = quantities[quantity][system];
  const sides = bounds.flatMap((bound) => (bound === null ? [] : [shownIn(bound, quantity, system)]));
  const at = value === null ? null : shownIn(value, quantity, system);
  for (let more = 1; more < extraDecimals; more++) {
    const kept = sides.every((bound) => {
      const shown = roundTo(bound, decimals + more);
      return at === null || equal(at, bound) || at > bound === at > shown;
    });
    if (kept) return more;
  }
  return extraDecimals;
}

/** A limit or a figure somebody entered: two decimals more than a reading shows, so that 0.0935 stays so. */
export function sayExact(
  value: number,
  quantity: QuantityKind,
  system: UnitSystem = 'us',
  beside: { value: number; bounds: readonly (number | null)[] } | null = null,
): string {
  const more = limitDecimals(quantity, system, beside?.value ?? null, beside?.bounds ?? []);
  return sayNumber(shownIn(value, quantity, system), quantities[quantity][system].decimals + more);
}

/**
 * A figure that a reading must reach, rounded towards passing: down where it is the most, up where it is the
 * least. With as many decimals as `sayExact`.
 */
export function saySafe(
  value: number,
  quantity: QuantityKind,
  side: 'at-most' | 'at-least' | 'above' | 'exactly',
  system: UnitSystem = 'us',
): string {
  return sayTowards(shownIn(value, quantity, system), quantity, side, system);
}

/** As `saySafe`, of a difference, rounded away from zero. */
export function sayApart(difference: number, quantity: QuantityKind, system: UnitSystem = 'us'): string {
  return sayTowards(apartIn(difference, quantity, system), quantity, 'at-least', system);
}

function sayTowards(
  shown: number,
  quantity: QuantityKind,
  side: 'at-most' | 'at-least' | 'above' | 'exactly',
  system: UnitSystem,
): string {
  const decimals = quantities[quantity][system].decimals + (convertsIn(quantity, system) ? 1 : 2);
  const scaled = shown * 10 ** decimals;
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

const equal = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.abs(b);

/**
 * A reading beside its bounds: rounded as the quantity is shown, with as many decimals more as are needed
 * for the rounded number to stand on the same side of each bound ("110.2 %", not "110 %; limit 110 %").
 */
export function sayBeside(
  value: number,
  quantity: QuantityKind,
  bounds: readonly (number | null)[],
  system: UnitSystem = 'us',
): string {
  const { decimals } = quantities[quantity][system];
  const converted = convertsIn(quantity, system);
  const at = shownIn(value, quantity, system);
  const room = converted ? limitDecimals(quantity, system, value, bounds) : 0;
  const sides = bounds.flatMap((bound) => {
    if (bound === null) return [];
    const exact = shownIn(bound, quantity, system);
    return [{ exact, shown: converted ? roundTo(exact, decimals + room) : exact }];
  });
  // a figure that somebody entered with one decimal more is shown as entered
  const first = !converted && equal(Number(at.toFixed(decimals + 1)), at) ? 1 : 0;
  for (let more = first; more < extraDecimals; more++) {
    const rounded = Number(at.toFixed(decimals + more));
    const kept = sides.every(({ exact, shown }) =>
      equal(at, exact) ? equal(rounded, shown) : !equal(rounded, shown) && rounded > shown === at > exact,
    );
    if (kept) return sayNumber(at, decimals + more);
  }
  return sayNumber(at, decimals + extraDecimals);
}
