/** The functions of the reference library for humid air that the checks use; the package has no types of its own. */
declare module 'psychrolib' {
  interface Psychrolib {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(tempC: number): number;
    GetHumRatioFromRelHum(tempC: number, relativeHumidity: number, pressurePa: number): number;
    GetTDewPointFromRelHum(tempC: number, relativeHumidity: number): number;
    GetMoistAirDensity(tempC: number, humidityRatio: number, pressurePa: number): number;
  }
  const psychrolib: Psychrolib;
  export default psychrolib;
}
