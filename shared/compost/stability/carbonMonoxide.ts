const gramsPerMol = 28.01;
const gasConstant = 8.314462618;

/** Litres taken up by one mol of gas: 24.47 L at 25 C and 101.325 kPa. */
function molarVolumeLitres(celsius: number, pressurePascal: number): number {
  return (gasConstant * (celsius + 273.15) * 1000) / pressurePascal;
}

/** Carbon monoxide in parts per million by volume from mg per cubic metre of air (ideal gas). */
export function carbonMonoxidePpm(mgPerCubicMetre: number, celsius = 25, pressurePascal = 101_325): number {
  return (mgPerCubicMetre * molarVolumeLitres(celsius, pressurePascal)) / gramsPerMol;
}

/** Carbon monoxide in mg per cubic metre of air from parts per million by volume (ideal gas). */
export function carbonMonoxideMgPerCubicMetre(ppm: number, celsius = 25, pressurePascal = 101_325): number {
  return (ppm * gramsPerMol) / molarVolumeLitres(celsius, pressurePascal);
}
