import { computed, signal } from '@preact/signals';
import { wall } from '../common/wallData.ts';

/** A wall of no more piles than this draws everything in one go; of more, so many of the first come first. */
export const drawnAtOnce = 60;

const numbersPainted = signal(false);

/**
 * Whether tiles draw their cuts and courses, and all of them are there. On a wall of very many piles numbers and alarms of
 * the first, which are the worst, are painted first: they can be read while the rest is still being made.
 */
export const drawsPictures = computed(
  () => numbersPainted.value || (wall.value?.piles.length ?? 0) <= drawnAtOnce,
);

/** To be called once tiles are in the page: pictures follow after their first paint. */
export function drawPicturesNext(): void {
  requestAnimationFrame(() => setTimeout(() => (numbersPainted.value = true)));
}
