/** The part of the library that the benchmark uses; it comes without types. */
declare module 'json-logic-js' {
  const jsonLogic: { apply(rule: unknown, data: unknown): unknown };
  export default jsonLogic;
}
