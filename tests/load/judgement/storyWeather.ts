import { type WeatherAt, yearlyWeather } from '../../../shared/compost/pileModel/weather.ts';
import type { Draw } from './draw.ts';

const daySeconds = 86_400;

/** A spell of days warmer (heat wave) or colder (frost) than the season. */
interface Spell {
  readonly fromDay: number;
  readonly days: number;
  readonly celsius: number;
}

export interface StoryWeather {
  readonly weatherAt: WeatherAt;
  /** Day of the year the pile is built. */
  readonly startDayOfYear: number;
  readonly spells: readonly Spell[];
}

/** Days of the year in which a story's pile is built: people who know their trade build in the growing season. */
const seasons = {
  winter: { from: 320, to: 395 },
  summer: { from: 150, to: 215 },
  growing: { from: 75, to: 290 },
} as const;
export type Season = keyof typeof seasons;

/** Weather of one story: a place, a season, fronts of a few days, rain with them, and heat waves or frost. */
export function drawWeather(draw: Draw, days: number, season: Season): StoryWeather {
  const startDayOfYear = draw.between(seasons[season].from, seasons[season].to) % 365;
  const year = yearlyWeather({
    meanCelsius: draw.between(7, 14),
    yearlySwingCelsius: draw.between(5, 11),
    dailySwingCelsius: draw.between(2, 6),
    startDayOfYear,
    relativeHumidityFraction: draw.between(0.65, 0.85),
  });
  const spells = drawSpells(draw, days, season);
  const moods = Array.from({ length: Math.ceil(days / 3) + 2 }, () => draw.between(-1, 1));
  const wetness = draw.between(0.3, 0.8);
  const weatherAt: WeatherAt = (seconds) => {
    const plain = year(seconds);
    const day = seconds / daySeconds;
    const mood = moodAt(moods, day / 3);
    const spell = spells.reduce((sum, one) => sum + one.celsius * strengthOf(one, day), 0);
    return {
      airCelsius: plain.airCelsius + 3 * mood + spell,
      relativeHumidityFraction: Math.min(0.98, Math.max(0.3, plain.relativeHumidityFraction + 0.1 * mood)),
      windMetresPerSecond: 1 + 2 * Math.abs(mood),
      rainMillimetresPerHour: mood > wetness ? 0.8 : 0,
      groundCelsius: plain.groundCelsius + 0.3 * spell,
    };
  };
  return { weatherAt, startDayOfYear, spells };
}

function drawSpells(draw: Draw, days: number, season: Season): Spell[] {
  const spell = (celsius: number): Spell => ({
    fromDay: draw.between(1, Math.max(2, days - 8)),
    days: draw.between(3, 8),
    celsius,
  });
  if (season === 'winter') return [spell(-draw.between(6, 12)), spell(-draw.between(4, 9))];
  if (season === 'summer') return [spell(draw.between(6, 12)), spell(draw.between(4, 9))];
  return draw.happens(0.5) ? [spell(draw.between(-7, 9))] : [];
}

function moodAt(moods: readonly number[], position: number): number {
  const whole = Math.min(moods.length - 2, Math.floor(position));
  const part = Math.min(1, position - whole);
  const eased = part * part * (3 - 2 * part);
  return moods[whole]! * (1 - eased) + moods[whole + 1]! * eased;
}

/** Comes and goes over a day. */
function strengthOf({ fromDay, days }: Spell, day: number): number {
  return Math.max(0, Math.min(1, day - fromDay, fromDay + days - day));
}
