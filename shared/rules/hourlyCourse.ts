import { type CourseLine, createCourseLine, stepCourseLine } from '../compost/stages/coreCourse.ts';
import { type HourContext, nextPileMemory, type PileHour, type PileMemory } from './pileMemory.ts';
import { trailDays } from './timerTrail.ts';

const hourMs = 3_600_000;

/** Hours that can be read again when somebody writes late what was done; older entries change only what comes after. */
const hoursKept = trailDays * 24;

/**
 * A pile's life hour by hour, in constant memory: where it stands now, and the last three days with where it stood
 * before them, so that a journal entry written late still counts from when it was true.
 */
export interface HourlyCourse {
  line: CourseLine;
  memory: PileMemory;
  /** Where it stood before the oldest kept hour. */
  before: PileMemory;
  /** Four numbers for each kept hour, in a ring; made with the first hour. */
  ring: Float32Array | null;
  count: number;
  next: number;
}

export function createHourlyCourse(memory: PileMemory, coreChannels: number): HourlyCourse {
  return { line: createCourseLine(coreChannels), memory, before: memory, ring: null, count: 0, next: 0 };
}

/** Takes the next hour of which something is known; `cores` is what each core channel said in it, null where silent. */
export function addHour(
  course: HourlyCourse,
  cores: readonly (number | null)[],
  hour: Omit<PileHour, 'coreCelsius'>,
  context: HourContext,
): void {
  const { celsius } = stepCourseLine(course.line, cores);
  // To the precision the ring keeps, so that reading the hours again gives exactly the same.
  const full: PileHour = {
    startMs: hour.startMs,
    coreCelsius: Math.fround(celsius ?? Number.NaN),
    airCelsius: Math.fround(hour.airCelsius),
    moistureFraction: Math.fround(hour.moistureFraction),
  };
  keep(course, full, context);
  course.memory = nextPileMemory(course.memory, full, context);
}

/** Reads the kept hours again: the journal or the method is not what it was. */
export function readHoursAgain(course: HourlyCourse, context: HourContext): void {
  course.memory = course.before;
  for (let age = course.count; age > 0; age -= 1)
    course.memory = nextPileMemory(course.memory, hourAt(course, course.next - age), context);
}

function keep(course: HourlyCourse, hour: PileHour, context: HourContext): void {
  course.ring ??= new Float32Array(hoursKept * 4);
  if (course.count === hoursKept) {
    course.before = nextPileMemory(course.before, hourAt(course, course.next - hoursKept), context);
  } else course.count += 1;
  const at = (course.next % hoursKept) * 4;
  // The number of the hour, which this precision holds exactly.
  course.ring[at] = hour.startMs / hourMs;
  course.ring[at + 1] = hour.coreCelsius;
  course.ring[at + 2] = hour.airCelsius;
  course.ring[at + 3] = hour.moistureFraction;
  course.next += 1;
}

function hourAt({ ring }: HourlyCourse, number: number): PileHour {
  const at = (number % hoursKept) * 4;
  return {
    startMs: ring![at]! * hourMs,
    coreCelsius: ring![at + 1]!,
    airCelsius: ring![at + 2]!,
    moistureFraction: ring![at + 3]!,
  };
}
