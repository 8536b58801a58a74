import type uPlot from 'uplot';

export interface DragHandlers {
  /** Let go: by which share of the shown width it was pulled. */
  onMoved(byShare: number): void;
  /** While it is pulled: how far, so that what stands above can follow. 0 at the end. */
  onDragged(pixels: number): void;
  /** Pressed and not pulled, so far from the left. */
  onTapped(pixels: number): void;
}

/** Less than this is a tap by an unsteady hand. */
const tapPixels = 6;

/**
 * Lets a finger or a mouse pull the curves sideways, or tap a moment. Meanwhile only the plot itself is drawn. Returns what
 * takes the listeners away.
 */
export function dragPlot(plot: uPlot, { onMoved, onDragged, onTapped }: DragHandlers): () => void {
  const area = plot.over;
  let start: { x: number; min: number; max: number; by: number } | null = null;
  const down = (event: PointerEvent) => {
    const { min, max } = plot.scales.x!;
    if (event.button !== 0 || min == null || max == null) return;
    start = { x: event.clientX, min, max, by: 0 };
    area.setPointerCapture(event.pointerId);
  };
  const move = (event: PointerEvent) => {
    if (start === null) return;
    const pulled = event.clientX - start.x;
    start.by = -pulled / area.clientWidth;
    const shift = start.by * (start.max - start.min);
    plot.setScale('x', { min: start.min + shift, max: start.max + shift });
    onDragged(pulled);
  };
  const up = (event: PointerEvent) => {
    const by = start?.by ?? 0;
    const { left } = area.getBoundingClientRect();
    const isTap = start !== null && Math.abs(by) * area.clientWidth < tapPixels;
    if (isTap && start !== null) plot.setScale('x', { min: start.min, max: start.max });
    start = null;
    onDragged(0);
    if (isTap && event.type === 'pointerup') onTapped(event.clientX - left);
    else if (by !== 0) onMoved(by);
  };
  area.addEventListener('pointerdown', down);
  area.addEventListener('pointermove', move);
  for (const end of ['pointerup', 'pointercancel'] as const) area.addEventListener(end, up);
  return () => {
    area.removeEventListener('pointerdown', down);
    area.removeEventListener('pointermove', move);
    for (const end of ['pointerup', 'pointercancel'] as const) area.removeEventListener(end, up);
  };
}
