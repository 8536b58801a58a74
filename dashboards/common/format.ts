import { signal } from '@preact/signals';
import type { TemperatureUnit } from '../../shared/yard/yard.ts';
import { locale, measures, words } from './words.ts';

/** The yard's own way of showing things; set once when its data arrive. */
export const display = signal<{ unit: TemperatureUnit; timeZone: string }>({ unit: 'C', timeZone: 'UTC' });

/** Takes over the yard's way; what shows temperatures is drawn again only when it really changed. */
export function showAs(yard: { readonly temperatureUnit: TemperatureUnit; readonly timeZone: string }): void {
  const { temperatureUnit: unit, timeZone } = yard;
  if (unit !== display.peek().unit || timeZone !== display.peek().timeZone)
    display.value = { unit, timeZone };
}

const minuteMs = 60_000;
const hourMs = 3_600_000;
const dayMs = 86_400_000;

/** Temperature as a number in the yard's unit, without it: `71.4`. */
export function temperatureNumber(celsius: number, decimals = 1): string {
  return (display.value.unit === 'F' ? celsius * 1.8 + 32 : celsius).toFixed(decimals);
}

/** `71.4 C` or `160.5 F`. */
export function temperature(celsius: number, decimals = 1): string {
  return `${temperatureNumber(celsius, decimals)} ${display.value.unit}`;
}

/** A difference or slope of temperature: no 32 in it. */
export function temperatureChange(celsius: number, decimals = 1): string {
  return (display.value.unit === 'F' ? celsius * 1.8 : celsius).toFixed(decimals);
}

/** Slope in words: "rising 0.4 C/h"; under a twentieth of a degree an hour is steady. */
export function trend(
  celsiusPerHour: number | null,
): { word: string; detail: string; turn: -1 | 0 | 1 } | null {
  if (celsiusPerHour === null) return null;
  if (Math.abs(celsiusPerHour) < 0.05) return { word: words.steady, detail: '', turn: 0 };
  const up = celsiusPerHour > 0;
  const size = temperatureChange(Math.abs(celsiusPerHour));
  return {
    word: up ? words.rising : words.falling,
    detail: measures.perHour(`${size} ${display.value.unit}`),
    turn: up ? 1 : -1,
  };
}

/** How long ago, in the largest unit that still tells: `4 min`, `3 h`, `12 d`. */
export function duration(milliseconds: number): string {
  const span = Math.max(0, milliseconds);
  if (span < minuteMs) return measures.seconds(Math.round(span / 1000));
  if (span < 90 * minuteMs) return measures.minutes(Math.round(span / minuteMs));
  if (span < 48 * hourMs) return measures.hours(Math.round(span / hourMs));
  return measures.days(Math.round(span / dayMs));
}

const formats = new Map<string, Intl.DateTimeFormat>();

function formatted(timeMs: number, kind: string, options: Intl.DateTimeFormatOptions): string {
  const { timeZone } = display.value;
  const key = `${timeZone} ${kind}`;
  let format = formats.get(key);
  if (!format) {
    format = new Intl.DateTimeFormat(locale, { timeZone, hour12: false, ...options });
    formats.set(key, format);
  }
  return format.format(timeMs);
}

/** How old a reading is: `just now`, `4 min ago`. */
export function age(milliseconds: number): string {
  return milliseconds < 90_000 ? words.justNow : words.ago(duration(milliseconds));
}

/** `14:05` in the yard's zone. */
export const clockTime = (timeMs: number) =>
  formatted(timeMs, 'clock', { hour: '2-digit', minute: '2-digit' });

/** Hour of the day, 0 to 23, in the yard's zone. */
export const hourOfDay = (timeMs: number) => Number(formatted(timeMs, 'hour', { hour: '2-digit' })) % 24;

/** `Wed 25 Nov` in the yard's zone. */
export const day = (timeMs: number) =>
  formatted(timeMs, 'day', { weekday: 'short', day: 'numeric', month: 'short' });

/** `25 Nov 2026` in the yard's zone. */
export const fullDay = (timeMs: number) =>
  formatted(timeMs, 'full-day', { day: 'numeric', month: 'short', year: 'numeric' });

/** `25 Nov` in the yard's zone. */
export const shortDay = (timeMs: number) =>
  formatted(timeMs, 'short-day', { day: 'numeric', month: 'short' });

/** `25 Nov 14:05` in the yard's zone. */
export const dayAndTime = (timeMs: number) =>
  formatted(timeMs, 'both', { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' }).replace(
    ',',
    '',
  );

/** `2026-11-25 14:05` in the yard's zone, for tables. */
export const tableTime = (timeMs: number) =>
  formatted(timeMs, 'table', {
    year: 'numeric',
    month: 'short',
    day: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
  }).replace(',', '');

export const percent = (fraction: number) => `${Math.round(fraction * 100)} %`;
