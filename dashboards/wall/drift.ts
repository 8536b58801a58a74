/** Farthest the picture moves from its middle place; the wall's margin is wider than this. */
export const driftPixels = 6;
const stepMs = 60_000;

/**
 * Where the whole picture stands at a time, in pixels: it wanders a little, a pixel a minute at most, so that lines which
 * never change do not burn into a screen that is on for years. The two ways have no common period for days.
 */
export function driftAt(timeMs: number): { readonly x: number; readonly y: number } {
  const step = Math.floor(timeMs / stepMs);
  return { x: swing(step, 25), y: swing(step, 37) };
}

/** There and back between -driftPixels and +driftPixels, one pixel at a time, staying `stay` steps on each. */
function swing(step: number, stay: number): number {
  const period = driftPixels * 4;
  const at = Math.floor(step / stay) % period;
  return driftPixels - Math.abs(at - driftPixels * 2);
}
