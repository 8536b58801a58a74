import type { Quantity } from '../../../shared/yard/yard.ts';
import type { Draw } from './draw.ts';
import { stepMinutes, type TrueCourse } from './playStory.ts';
import type { StoryFault, StorySpec } from './storySpec.ts';
import { builtMs, dayMs, hourMs, minuteMs } from './storyTimes.ts';

/** One sensor of a story: where it stands and how it errs. */
export interface StorySensor {
  readonly channel: string;
  readonly probe: 'a' | 'b' | 'air';
  readonly quantity: Quantity;
  readonly position: 'core' | 'shoulder' | 'air';
  readonly depthMetres: number | null;
  readonly column: keyof TrueCourse & `${string}${'Celsius' | 'Fraction'}`;
  readonly offset: number;
  readonly noise: number;
  readonly step: number;
}

/** What a sensor said, before anybody judged it. */
export interface RawReading {
  readonly timeMs: number;
  readonly value: number;
}

/** Sensors of a story: no two read alike, and none reads the truth. */
export function sensorsOf(spec: StorySpec, draw: Draw): StorySensor[] {
  const thermometer = { quantity: 'temperature', noise: 0.08, step: 1 / 16 } as const;
  const core: StorySensor = {
    ...thermometer,
    channel: 'core',
    probe: 'a',
    position: 'core',
    depthMetres: 0.6,
    column: 'coreCelsius',
    offset: draw.between(-0.8, 0.3),
  };
  const shoulder: StorySensor = {
    ...core,
    channel: 'shoulder',
    position: 'shoulder',
    depthMetres: 0.3,
    column: 'shoulderCelsius',
    offset: draw.between(-0.4, 0.4),
  };
  const second: StorySensor = {
    ...core,
    channel: 'core2',
    probe: 'b',
    depthMetres: spec.sensors.paired ? 0.6 : 0.5,
    offset: spec.sensors.paired ? draw.between(-0.8, 0.6) : draw.between(-2.5, -0.5),
  };
  const air: StorySensor = {
    ...core,
    channel: 'air',
    probe: 'air',
    position: 'air',
    depthMetres: null,
    column: 'airCelsius',
    offset: draw.between(-0.4, 1),
  };
  const moisture: StorySensor = {
    channel: 'moisture',
    probe: 'a',
    quantity: 'moisture',
    position: 'shoulder',
    depthMetres: 0.3,
    column: 'shoulderMoistureFraction',
    offset: draw.between(-0.015, 0.015),
    noise: 0.003,
    step: 0.002,
  };
  return [
    core,
    shoulder,
    ...(spec.sensors.secondCore ? [second] : []),
    ...(spec.sensors.moisture ? [moisture] : []),
    ...(spec.sensors.air ? [air] : []),
  ];
}

/** Everything a sensor sends in a story, with the story's faults in it. */
export function readSensor(
  spec: StorySpec,
  course: TrueCourse,
  sensor: StorySensor,
  draw: Draw,
): RawReading[] {
  const readings: RawReading[] = [];
  const values = course[sensor.column];
  const stepsBetween = spec.sensors.intervalMinutes / stepMinutes;
  const lateMs = (sensor.probe === 'a' ? 17 : sensor.probe === 'b' ? 41 : 5) * 1000;
  let held: number | null = null;
  for (let row = 0; row < course.length; row += stepsBetween) {
    const timeMs = builtMs + row * stepMinutes * minuteMs + lateMs;
    const honest = quantised(values[row]! + sensor.offset + sensor.noise * draw.normal(), sensor);
    const days = (timeMs - builtMs) / dayMs;
    const stuck = faultsOf(spec, sensor).find((fault) => fault.kind === 'stuck' && days >= fault.fromDay);
    if (stuck !== undefined) held ??= honest;
    const value = faulty(spec, sensor, { days, honest: held ?? honest }, draw);
    if (value !== null) readings.push({ timeMs, value });
  }
  return readings;
}

/** Battery of probe a, every six hours: full for long, unless the story says it runs down. */
export function readBattery(spec: StorySpec): RawReading[] {
  const fault = spec.faults.find(({ kind }) => kind === 'battery');
  const readings: RawReading[] = [];
  for (let timeMs = builtMs; timeMs < builtMs + spec.days * dayMs; timeMs += 6 * hourMs) {
    const days = (timeMs - builtMs) / dayMs;
    if (isSilent(spec, days)) continue;
    const spent = fault?.kind === 'battery' ? Math.max(0, days - fault.fromDay) * fault.perDay : 0;
    readings.push({ timeMs, value: Math.max(0.02, 0.95 - days * 0.002 - spent) });
  }
  return readings;
}

function isSilent({ faults }: StorySpec, days: number): boolean {
  return faults.some((fault) => {
    if (fault.kind === 'silent') return days >= fault.fromDay && days < fault.toDay;
    return fault.kind === 'power-on' && days >= fault.atDay && days < fault.atDay + fault.silentHours / 24;
  });
}

function quantised(value: number, { step, quantity }: StorySensor): number {
  const rounded = Math.round(value / step) * step;
  return quantity === 'moisture' ? Math.min(1, Math.max(0, rounded)) : rounded;
}

function faultsOf({ faults }: StorySpec, sensor: StorySensor): StoryFault[] {
  return faults.filter((fault) =>
    'channel' in fault ? fault.channel === sensor.channel : sensor.probe === 'a',
  );
}

const didNotAnswer = -127;
const powerOn = 85;

/** What it really sends; null when nothing comes through. */
function faulty(
  spec: StorySpec,
  sensor: StorySensor,
  { days, honest }: { readonly days: number; readonly honest: number },
  draw: Draw,
): number | null {
  const isThermometer = sensor.quantity === 'temperature';
  if (sensor.probe === 'a' && isSilent(spec, days)) return null;
  for (const fault of faultsOf(spec, sensor)) {
    if (fault.kind === 'dies' && days >= fault.fromDay) return didNotAnswer;
    if (fault.kind === 'drifts' && days >= fault.fromDay)
      return honest + (days - fault.fromDay) * fault.perDay;
    if (fault.kind === 'flickers' && draw.happens(fault.share))
      return draw.oneOf([didNotAnswer, 0, honest + 30]);
    if (fault.kind === 'power-on') {
      const hours = (days - fault.atDay) * 24;
      const isFirst =
        hours >= fault.silentHours && hours < fault.silentHours + spec.sensors.intervalMinutes / 60;
      if (isFirst && isThermometer) return powerOn;
    }
  }
  return honest;
}
