/** The npm package carries no types; only what the cross-check calls is declared. Temperatures C, pressures Pa, SI mode. */
declare module 'psychrolib' {
  interface Psychrolib {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(temperature: number): number;
    GetSatHumRatio(temperature: number, pressure: number): number;
    GetHumRatioFromRelHum(temperature: number, relativeHumidity: number, pressure: number): number;
    GetMoistAirEnthalpy(temperature: number, humidityRatio: number): number;
    GetMoistAirVolume(temperature: number, humidityRatio: number, pressure: number): number;
    GetMoistAirDensity(temperature: number, humidityRatio: number, pressure: number): number;
    GetTDewPointFromHumRatio(temperature: number, humidityRatio: number, pressure: number): number;
    GetTWetBulbFromHumRatio(temperature: number, humidityRatio: number, pressure: number): number;
    GetStandardAtmPressure(altitude: number): number;
  }
  const psychrolib: Psychrolib;
  export default psychrolib;
}
