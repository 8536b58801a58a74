import type uPlot from 'uplot';

/**
 * Lets a finger or a mouse pull the curves sideways. `onMoved` hears by which share of the shown width, once it is let
 * go; meanwhile only the plot itself is drawn. Returns what takes the listeners away.
 */
export function dragPlot(plot: uPlot, onMoved: (byShare: number) => void): () => void {
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
    start.by = (start.x - event.clientX) / area.clientWidth;
    const shift = start.by * (start.max - start.min);
    plot.setScale('x', { min: start.min + shift, max: start.max + shift });
  };
  const up = () => {
    const by = start?.by ?? 0;
    start = null;
    if (by !== 0) onMoved(by);
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
