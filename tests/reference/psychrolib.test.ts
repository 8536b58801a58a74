import psychrolib from 'psychrolib';
import { beforeAll, describe, expect, test } from 'vitest';
import * as ours from '../../shared/compost/psychrometrics.ts';
import { saturationPressure } from '../../shared/compost/saturationPressure.ts';

/** Our moist-air functions against the npm psychrolib from -20 to 90 C, in half-degree steps, at three altitudes. */
const temperatures = Array.from({ length: 221 }, (_, step) => -20 + step / 2);
const humidities = [0.05, 0.3, 0.7, 1];
const altitudes = [0, 500, 2000];

/** Every state where water does not boil: temperature, humidity ratio and pressure. */
function* states() {
  for (const altitude of altitudes) {
    const pressure = psychrolib.GetStandardAtmPressure(altitude);
    for (const celsius of temperatures) {
      for (const humidity of humidities) yield { celsius, humidity, pressure };
    }
  }
}

const relative = (actual: number, expected: number) => Math.abs(actual / expected - 1);

beforeAll(() => psychrolib.SetUnitSystem(psychrolib.SI));

describe('agreement with psychrolib, -20 to 90 C', () => {
  test('saturation pressure', () => {
    for (const celsius of temperatures)
      expect(relative(saturationPressure(celsius), psychrolib.GetSatVapPres(celsius))).toBeLessThan(1e-9);
  });

  test('humidity ratio, enthalpy, volume and density', () => {
    let compared = 0;
    for (const { celsius, humidity, pressure } of states()) {
      const ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity, pressure);
      expect(relative(ours.humidityRatio(celsius, humidity, pressure), Math.max(ratio, 1e-7))).toBeLessThan(
        1e-9,
      );
      const joules = psychrolib.GetMoistAirEnthalpy(celsius, ratio);
      expect(ours.moistAirEnthalpy(celsius, ratio) * 1000).toBeCloseTo(joules, 3);
      const volume = psychrolib.GetMoistAirVolume(celsius, ratio, pressure);
      expect(relative(ours.specificVolume(celsius, ratio, pressure), volume)).toBeLessThan(1e-6);
      const density = psychrolib.GetMoistAirDensity(celsius, ratio, pressure);
      expect(relative(ours.moistAirDensity(celsius, ratio, pressure), density)).toBeLessThan(1e-6);
      compared += 1;
    }
    expect(compared).toBe(temperatures.length * humidities.length * altitudes.length);
  });

  test('dew point and wet bulb within the 0.001 K psychrolib solves to', () => {
    for (const { celsius, humidity, pressure } of states()) {
      const ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity, pressure);
      const dew = ours.dewPoint(ours.vapourPressureFromHumidityRatio(ratio, pressure));
      expect(Math.abs(dew - psychrolib.GetTDewPointFromHumRatio(celsius, ratio, pressure))).toBeLessThan(
        0.003,
      );
      const bulb = psychrolib.GetTWetBulbFromHumRatio(celsius, ratio, pressure);
      expect(Math.abs(ours.wetBulb(celsius, ratio, pressure) - bulb)).toBeLessThan(0.003);
    }
  });

  test('standard pressure', () => {
    for (const altitude of [-400, 0, 500, 1500, 4000])
      expect(
        relative(ours.standardPressure(altitude), psychrolib.GetStandardAtmPressure(altitude)),
      ).toBeLessThan(1e-9);
  });
});
