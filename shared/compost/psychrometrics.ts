/**
 * Properties of moist air, all in SI: celsius, pascal, kg water per kg dry air, kJ per kg dry air.
 *
 * What is here: humidity ratio, enthalpy, density, specific volume, dew point, wet bulb, standard pressure at an
 * altitude and latent heat. Saturation pressure stands in `saturationPressure.ts`.
 * Source: ideal-gas relations of ASHRAE Fundamentals 2017 ch. 1 (reference pack section 6, 6h). Against ASHRAE's
 * own real-gas tables this form differs by up to 2 % in humidity ratio and 3 % in enthalpy.
 */
import { requireBetween } from './allowed.ts';
import { saturationPressure } from './saturationPressure.ts';

export const seaLevelPressurePascal = 101_325;
/** Ratio of the molar masses of water and dry air. */
const molarMassRatio = 0.621945;
const dryAirGasConstant = 287.042;
const kelvinAtZeroCelsius = 273.15;

/**
 * Humidity ratio, kg water per kg dry air, from the partial pressure of vapour (pascal).
 * Throws when the vapour pressure reaches the total pressure: there the water boils and no dry air is left.
 */
export function humidityRatioFromVapourPressure(
  vapourPressurePascal: number,
  pressurePascal: number = seaLevelPressurePascal,
): number {
  if (vapourPressurePascal >= 0 && vapourPressurePascal < pressurePascal)
    return (molarMassRatio * vapourPressurePascal) / (pressurePascal - vapourPressurePascal);
  throw new RangeError(
    `vapourPressurePascal is ${vapourPressurePascal}; allowed is 0 to below the air pressure ${pressurePascal}`,
  );
}

/** Partial pressure of vapour, pascal, of air with a humidity ratio (kg/kg). */
export function vapourPressureFromHumidityRatio(
  humidityRatio: number,
  pressurePascal: number = seaLevelPressurePascal,
): number {
  return (pressurePascal * humidityRatio) / (molarMassRatio + humidityRatio);
}

/** Humidity ratio, kg/kg, of air at a temperature and relative humidity 0..1 (over ice below 0.01 C). */
export function humidityRatio(
  temperatureCelsius: number,
  relativeHumidityFraction: number,
  pressurePascal: number = seaLevelPressurePascal,
): number {
  requireBetween('relativeHumidityFraction', relativeHumidityFraction, 0, 1);
  const vapourPressure = relativeHumidityFraction * saturationPressure(temperatureCelsius);
  return humidityRatioFromVapourPressure(vapourPressure, pressurePascal);
}

/** Humidity ratio, kg/kg, of saturated air. Throws at and above the boiling point. */
export function saturationHumidityRatio(
  temperatureCelsius: number,
  pressurePascal: number = seaLevelPressurePascal,
): number {
  return humidityRatioFromVapourPressure(saturationPressure(temperatureCelsius), pressurePascal);
}

/** Enthalpy, kJ per kg dry air, zero for dry air at 0 C. */
export function moistAirEnthalpy(temperatureCelsius: number, humidityRatio: number): number {
  return 1.006 * temperatureCelsius + humidityRatio * (2501 + 1.86 * temperatureCelsius);
}

/** Enthalpy of saturated air, kJ per kg dry air. */
export function saturatedAirEnthalpy(
  temperatureCelsius: number,
  pressurePascal: number = seaLevelPressurePascal,
): number {
  return moistAirEnthalpy(temperatureCelsius, saturationHumidityRatio(temperatureCelsius, pressurePascal));
}

/** Specific volume, m3 of moist air per kg of DRY air. */
export function specificVolume(
  temperatureCelsius: number,
  humidityRatio: number,
  pressurePascal: number = seaLevelPressurePascal,
): number {
  const kelvin = temperatureCelsius + kelvinAtZeroCelsius;
  return (dryAirGasConstant * kelvin * (1 + humidityRatio / molarMassRatio)) / pressurePascal;
}

/** Density, kg of moist air (dry air and vapour together) per m3. */
export function moistAirDensity(
  temperatureCelsius: number,
  humidityRatio: number,
  pressurePascal: number = seaLevelPressurePascal,
): number {
  return (1 + humidityRatio) / specificVolume(temperatureCelsius, humidityRatio, pressurePascal);
}

/** Relative humidity 0..1 of air with a humidity ratio; above 1 means supersaturated (fog). */
export function relativeHumidity(
  temperatureCelsius: number,
  humidityRatio: number,
  pressurePascal: number = seaLevelPressurePascal,
): number {
  return (
    vapourPressureFromHumidityRatio(humidityRatio, pressurePascal) / saturationPressure(temperatureCelsius)
  );
}

/** Dew point (frost point below 0.01 C), celsius, of a vapour pressure in pascal; -100 to 200 C. */
export function dewPoint(vapourPressurePascal: number): number {
  requireBetween(
    'vapourPressurePascal',
    vapourPressurePascal,
    saturationPressure(-100),
    saturationPressure(200),
  );
  return bisect((celsius) => saturationPressure(celsius) - vapourPressurePascal, -100, 200);
}

/**
 * Thermodynamic wet bulb, celsius, of air at a temperature with a humidity ratio (kg/kg). The bulb is taken as iced
 * below 0 C. Throws when the air holds more than saturation.
 */
export function wetBulb(
  temperatureCelsius: number,
  humidityRatio: number,
  pressurePascal: number = seaLevelPressurePascal,
): number {
  const saturated = saturationHumidityRatio(temperatureCelsius, pressurePascal);
  requireBetween('humidityRatio', humidityRatio, 1e-7, saturated * (1 + 1e-9));
  const dewPointCelsius = dewPoint(vapourPressureFromHumidityRatio(humidityRatio, pressurePascal));
  const excess = (bulb: number) =>
    humidityRatioAtWetBulb(temperatureCelsius, bulb, pressurePascal) - humidityRatio;
  return bisect(excess, Math.min(dewPointCelsius, temperatureCelsius), temperatureCelsius);
}

/** Energy balance of a wet bulb: the humidity ratio at which a bulb at `bulb` C stands in air at `air` C. */
function humidityRatioAtWetBulb(air: number, bulb: number, pressurePascal: number): number {
  const saturated = saturationHumidityRatio(bulb, pressurePascal);
  if (bulb >= 0)
    return ((2501 - 2.326 * bulb) * saturated - 1.006 * (air - bulb)) / (2501 + 1.86 * air - 4.186 * bulb);
  return ((2830 - 0.24 * bulb) * saturated - 1.006 * (air - bulb)) / (2830 + 1.86 * air - 2.1 * bulb);
}

/** Standard atmosphere pressure, pascal, at an altitude in metres (-500 to 11000). */
export function standardPressure(altitudeMetres: number): number {
  requireBetween('altitudeMetres', altitudeMetres, -500, 11_000);
  return seaLevelPressurePascal * (1 - 2.25577e-5 * altitudeMetres) ** 5.2559;
}

/**
 * Latent heat of vaporisation, MJ per kg: 2.501 - 0.00237 T (Stull 1988, Foken 2008; pack 5.5, seen). Within 0.1 %
 * of IAPWS-95 from 0 to 70 C.
 */
export function latentHeat(temperatureCelsius: number): number {
  return 2.501 - 0.00237 * temperatureCelsius;
}

/** Root of a rising function between `low` and `high` to about 1e-10 C. */
function bisect(rising: (celsius: number) => number, low: number, high: number): number {
  let [from, to] = [low, high];
  for (let step = 0; step < 45; step += 1) {
    const middle = (from + to) / 2;
    if (rising(middle) < 0) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}
