import type { WeatherAt } from '../../shared/compost/pileModel/weather.ts';
import { yearlyWeather } from '../../shared/compost/pileModel/weather.ts';

const dayMs = 86_400_000;

/** Fixed pseudo-random number 0..1 for a whole number, so that a day's weather is the same at every look. */
function chance(day: number): number {
  const wave = Math.sin(day * 127.1 + 311.7) * 43_758.5453;
  return wave - Math.floor(wave);
}

/** Smoothly changing -1..1 over days: invented fronts coming in from the sea. */
function front(day: number): number {
  const whole = Math.floor(day);
  const part = day - whole;
  const eased = part * part * (3 - 2 * part);
  return (chance(whole) * (1 - eased) + chance(whole + 1) * eased) * 2 - 1;
}

/** Weather of the invented seaside yard at an instant: mild winters, cool summers, damp, fronts every few days. */
export function seaWeatherAt(timeMs: number): ReturnType<WeatherAt> {
  const day = timeMs / dayMs;
  const startOfYear = Date.UTC(new Date(timeMs).getUTCFullYear(), 0, 1);
  const year = yearlyWeather({
    meanCelsius: 11,
    yearlySwingCelsius: 6,
    dailySwingCelsius: 3.5,
    startDayOfYear: 0,
    relativeHumidityFraction: 0.8,
  });
  const plain = year((timeMs - startOfYear) / 1000);
  const mood = front(day / 2.5);
  const raining = mood > 0.55 && chance(Math.floor(timeMs / 3_600_000)) > 0.5;
  return {
    airCelsius: plain.airCelsius + 3 * mood,
    relativeHumidityFraction: Math.min(0.98, plain.relativeHumidityFraction + 0.08 * mood),
    windMetresPerSecond: 2.5 + 2 * Math.abs(mood),
    rainMillimetresPerHour: raining ? 1.5 : 0,
    groundCelsius: plain.groundCelsius,
  };
}
