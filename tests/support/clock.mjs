// Preloaded into a process that is to believe it is another time: its clock goes on from CLOCK_AT.
const Real = Date;
const ahead = Real.parse(process.env['CLOCK_AT'] ?? '') - Real.now();
const now = () => Real.now() + ahead;

globalThis.Date = new Proxy(Real, {
  construct: (date, parts, asked) => Reflect.construct(date, parts.length === 0 ? [now()] : parts, asked),
  get: (date, key) => (key === 'now' ? now : Reflect.get(date, key)),
});
