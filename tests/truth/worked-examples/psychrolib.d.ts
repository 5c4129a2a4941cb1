/** The functions of the psychrolib package that the tests call: °C, Pa, fractions, J/kg. */
declare module "psychrolib" {
  const psychrolib: {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(tempC: number): number;
    GetStandardAtmPressure(altitudeM: number): number;
    GetTDewPointFromRelHum(tempC: number, relHum: number): number;
    GetTWetBulbFromRelHum(tempC: number, relHum: number, pressurePa: number): number;
    GetHumRatioFromTWetBulb(tempC: number, wetC: number, pressurePa: number): number;
    GetSatHumRatio(tempC: number, pressurePa: number): number;
    GetMoistAirEnthalpy(tempC: number, humidityRatio: number): number;
  };
  export default psychrolib;
}
