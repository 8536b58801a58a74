import { stepMinutes, type TrueCourse } from './playStory.ts';
import { builtMs, minuteMs } from './storyTimes.ts';

/** True moisture inside the pile at an instant, wet basis: the mean of core and shoulder. */
export function moistureOfRow(course: TrueCourse, atMs: number): number {
  const row = Math.min(course.length - 1, Math.floor((atMs - builtMs) / (stepMinutes * minuteMs)));
  return (course.coreMoistureFraction[row]! + course.shoulderMoistureFraction[row]!) / 2;
}

/**
 * What an honest hand says of a moisture: 1 dust, 2 holds no shape, 3 a sponge wrung out, 4 a drop or two, 5 drips
 * (common practice, no source).
 */
export function squeezeScore(moistureFraction: number): number {
  const steps = [0.38, 0.48, 0.62, 0.72];
  return 1 + steps.filter((step) => moistureFraction >= step).length;
}
