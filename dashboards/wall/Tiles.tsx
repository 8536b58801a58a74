import { computed, signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { type MapLayout, mapCells } from '../../shared/api/mapCells.ts';
import type { MapPlace, WallPile } from '../../shared/api/types.ts';
import { byPlace, worstFirst } from '../../shared/api/wallOrder.ts';
import { words } from '../common/words.ts';
import { type Area, farTile, fitTiles, gapFor, mostTiles, smallestTile } from './fit.ts';
import { PileTile } from './PileTile.tsx';
import { drawnAtOnce, drawPicturesNext, drawsPictures } from './pictures.ts';
import { settings } from './settings.ts';
import { wallWords } from './words.ts';

const area = signal<Area>({ width: 1920, height: 900 });
const page = signal(0);
/** How long each page of a yard with very many piles stays. */
const pageMs = 12_000;
/** Below this width the wall is somebody's phone: a list to scroll, not a board to fit. */
const listBelowPixels = 700;

/** How many tiles can be shown at once and still be read, close by or from afar. */
const perPage = computed(() => {
  const { show, diagonalInches } = settings.value;
  const least = show === 'all' ? smallestTile : farTile(screen, diagonalInches);
  return mostTiles(area.value, least);
});

interface TilesProps {
  readonly piles: readonly WallPile[];
  /** Which place is where; empty when nobody drew the yard. */
  readonly map: readonly MapPlace[];
}

/** The piles of the page that is on, in the order this screen was given. */
export function Tiles({ piles, map }: TilesProps) {
  const board = useRef<HTMLElement>(null);
  useMeasuredArea(board);
  useEffect(drawPicturesNext, []);
  const asList = area.value.width < listBelowPixels;
  const layout = settings.value.order === 'map' && !asList ? mapCells(piles, map) : null;
  // A yard so wide that its tiles could not be read is shown in turn, walking through it.
  const asMap = layout !== null && layout.columns * layout.rows <= perPage.value ? layout : null;
  const pages = asList || asMap !== null ? 1 : Math.max(1, Math.ceil(piles.length / perPage.value));
  usePaging(pages);
  const ordered = [...piles].sort(settings.value.order === 'worst' ? worstFirst : byPlace);
  // Pages of one size, so that no page holds one lonely pile.
  const perFullPage = Math.ceil(ordered.length / pages);
  const start = (page.value % pages) * perFullPage;
  const shown = ordered.slice(start, start + perFullPage);
  return (
    <main class={asList ? 'as-list' : ''} ref={board}>
      {piles.length === 0 && <p class="empty">{words.noPiles}</p>}
      <ul class="tiles" style={asList ? {} : asMap !== null ? mapGrid(asMap) : gridOf(perFullPage)}>
        {(drawsPictures.value ? shown : shown.slice(0, drawnAtOnce)).map((pile) => (
          <PileTile key={pile.id} pile={pile} cell={asMap?.cells.get(pile.id) ?? null} />
        ))}
      </ul>
      {pages > 1 && <p class="pages">{wallWords.page((page.value % pages) + 1, pages)}</p>}
    </main>
  );
}

function mapGrid({ columns, rows }: MapLayout) {
  return {
    gap: `${gapFor(columns * rows)}px`,
    gridTemplateColumns: `repeat(${columns}, minmax(0, 1fr))`,
    gridTemplateRows: `repeat(${rows}, minmax(0, 1fr))`,
  };
}

function gridOf(count: number) {
  const { columns, rows } = fitTiles(count, area.value);
  return {
    gap: `${gapFor(count)}px`,
    gridTemplateColumns: `repeat(${columns}, minmax(0, 1fr))`,
    gridTemplateRows: `repeat(${rows}, minmax(0, 1fr))`,
  };
}

function useMeasuredArea(board: { current: HTMLElement | null }): void {
  useEffect(() => {
    const measure = new ResizeObserver(([entry]) => {
      const { width, height } = entry!.contentRect;
      const known = area.peek();
      if (known.width !== width || known.height !== height) area.value = { width, height };
    });
    measure.observe(board.current!);
    return () => measure.disconnect();
  }, []);
}

function usePaging(pages: number): void {
  useEffect(() => {
    if (pages < 2) return;
    const timer = setInterval(() => {
      page.value = (page.value + 1) % pages;
    }, pageMs);
    return () => clearInterval(timer);
  }, [pages]);
}
