/** The air around the pile at one moment. */
export interface Weather {
  readonly airCelsius: number;
  readonly relativeHumidityFraction: number;
  readonly windMetresPerSecond: number;
  readonly rainMillimetresPerHour: number;
  readonly groundCelsius: number;
}

/** Weather at a number of seconds after the pile was built. */
export type WeatherAt = (elapsedSeconds: number) => Weather;

/** Weather that never changes; what is not said is a mild, still day. */
export function steadyWeather(weather: Partial<Weather> & { airCelsius: number }): WeatherAt {
  const whole: Weather = {
    relativeHumidityFraction: 0.7,
    windMetresPerSecond: 1,
    rainMillimetresPerHour: 0,
    groundCelsius: weather.airCelsius,
    ...weather,
  };
  return () => whole;
}

/** A plain year: a yearly and a daily sine wave. `startDayOfYear` says when the pile is built. */
export interface YearlyWeather {
  readonly meanCelsius: number;
  /** Half the difference between the warmest and the coldest month. */
  readonly yearlySwingCelsius: number;
  readonly dailySwingCelsius: number;
  readonly startDayOfYear: number;
  readonly relativeHumidityFraction?: number;
}

/** Smooth made-up weather for plans and tests: warmest in late July and at three in the afternoon. */
export function yearlyWeather(year: YearlyWeather): WeatherAt {
  const wave = (days: number) => Math.cos((2 * Math.PI * (days - 205)) / 365);
  return (elapsedSeconds) => {
    const day = year.startDayOfYear + elapsedSeconds / 86_400;
    const hourWave = Math.cos(2 * Math.PI * (day - Math.floor(day) - 15 / 24));
    return {
      airCelsius: year.meanCelsius + year.yearlySwingCelsius * wave(day) + year.dailySwingCelsius * hourWave,
      relativeHumidityFraction: (year.relativeHumidityFraction ?? 0.75) - 0.12 * hourWave,
      windMetresPerSecond: 1,
      rainMillimetresPerHour: 0,
      groundCelsius: year.meanCelsius + 0.7 * year.yearlySwingCelsius * wave(day - 20),
    };
  };
}
