/** The parts of libraries without types that are compared against. */
declare module 'psychrolib' {
  interface Psychrometrics {
    SI: number;
    SetUnitSystem(system: number): void;
    /** Pa from metres */
    GetStandardAtmPressure(altitude: number): number;
    /** Pa from °C */
    GetSatVapPres(celsius: number): number;
    GetHumRatioFromRelHum(celsius: number, relativeHumidity: number, pressure: number): number;
    /** kg/m³ from °C, kg/kg, Pa */
    GetMoistAirDensity(celsius: number, humidityRatio: number, pressure: number): number;
    GetDryAirDensity(celsius: number, pressure: number): number;
  }
  const psychrometrics: Psychrometrics;
  export default psychrometrics;
}

declare module 'ml-regression-power' {
  /** y = A · x^B by least squares of the logarithms */
  export class PowerRegression {
    constructor(x: number[], y: number[]);
    readonly A: number;
    readonly B: number;
  }
}
