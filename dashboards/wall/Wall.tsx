import { computed, signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { WallPile, WallView } from '../../shared/api/types.ts';
import { age, clockTime, day, temperature } from '../common/format.ts';
import { link, serverNowMs } from '../common/live.ts';
import { words } from '../common/words.ts';
import { fitTiles, narrowestTilePixels } from './fit.ts';
import { PileTile } from './PileTile.tsx';
import { startWall, trouble, wall } from './wallData.ts';

const area = signal({ width: 1920, height: 900 });
const page = signal(0);
const gapPixels = 10;
/** How long each page of a yard with very many piles stays. */
const pageMs = 12_000;
/** Below this width the wall is somebody's phone: a list to scroll, not a board to fit. */
const listBelowPixels = 700;

/** How many tiles can be shown at once and still be read. */
const perPage = computed(() => {
  const { width, height } = area.value;
  const columns = Math.max(1, Math.floor((width + gapPixels) / (narrowestTilePixels + gapPixels)));
  const rows = Math.max(1, Math.floor((height + gapPixels) / (narrowestTilePixels / 1.62 + gapPixels)));
  return columns * rows;
});

export function Wall() {
  useEffect(startWall, []);
  const view = wall.value;
  if (link.value === 'ended')
    return (
      <Notice
        title="This screen has been signed out"
        text="Ask the yard's owner for a new wall link, or sign in."
      />
    );
  if (view === null) return <Notice title="Tilthwatch" text={trouble.value ?? 'Fetching the yard...'} />;
  return (
    <div class={`wall ${isLive() ? '' : 'not-live'}`}>
      <YardStrip view={view} />
      <Tiles piles={view.piles} />
    </div>
  );
}

const isLive = () => link.value === 'live' && trouble.value === null;

function Notice({ title, text }: { readonly title: string; readonly text: string }) {
  return (
    <main class="notice">
      <h1>{title}</h1>
      <p>{text}</p>
      <p>
        <a href="/#/sign-in">Sign in</a>
      </p>
    </main>
  );
}

function YardStrip({ view }: { readonly view: WallView }) {
  const now = serverNowMs.value;
  const { air } = view.yard;
  const unseen = view.unacknowledgedCount;
  return (
    <header class="strip">
      <h1>{view.yard.name}</h1>
      {isLive() ? (
        <p class={unseen > 0 ? 'unseen' : ''}>
          {unseen > 0 ? `${unseen} not seen yet` : standing(view) > 0 ? words.allSeen : words.nothingStanding}
        </p>
      ) : (
        <p class="lost" role="alert">
          <strong>{words.notLive}</strong> {link.value === 'connecting' ? 'Connecting...' : words.notLiveHint}
        </p>
      )}
      {view.yardAlarms[0] && <p class="unseen">{view.yardAlarms[0].name}</p>}
      {air && (
        <p>
          air {temperature(air.celsius)}
          <span class="small"> {age(now - air.timeMs)}</span>
        </p>
      )}
      <p class="clock">
        <time dateTime={new Date(now).toISOString()}>
          {clockTime(now)} <span class="small">{day(now)}</span>
        </time>
      </p>
    </header>
  );
}

const standing = (view: WallView) =>
  view.piles.reduce((sum, { alarms }) => sum + alarms.length, view.yardAlarms.length);

function Tiles({ piles }: { readonly piles: readonly WallPile[] }) {
  const list = useRef<HTMLUListElement>(null);
  useMeasuredArea(list);
  const pages = Math.max(1, Math.ceil(piles.length / perPage.value));
  usePaging(pages);
  if (piles.length === 0) return <p class="empty">{words.noPiles}</p>;
  const start = (page.value % pages) * perPage.value;
  const asList = area.value.width < listBelowPixels;
  const shown = asList ? piles : piles.slice(start, start + perPage.value);
  const fit = fitTiles(shown.length, area.value.width, area.value.height, gapPixels);
  const columns = asList ? 1 : fit.columns;
  const style = {
    gridTemplateColumns: `repeat(${columns}, 1fr)`,
    ...(asList ? {} : { gridTemplateRows: `repeat(${fit.rows}, 1fr)` }),
  };
  return (
    <main class={asList ? 'as-list' : ''}>
      <ul class="tiles" ref={list} style={style}>
        {shown.map((pile) => (
          <PileTile key={pile.id} pile={pile} nowMs={serverNowMs.value} />
        ))}
      </ul>
      {pages > 1 && !asList && (
        <p class="pages">
          part {(page.value % pages) + 1} of {pages}
        </p>
      )}
    </main>
  );
}

function useMeasuredArea(element: { current: HTMLElement | null }): void {
  useEffect(() => {
    const board = element.current?.parentElement;
    if (!board) return;
    const measure = new ResizeObserver(([entry]) => {
      area.value = { width: entry!.contentRect.width, height: entry!.contentRect.height };
    });
    measure.observe(board);
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
