import { useEffect } from 'preact/hooks';
import { NotLive } from '../common/NotLive.tsx';
import { showLastKnown, wall } from '../common/wallData.ts';
import { words } from '../common/words.ts';
import { Waiting } from './pile/press/Waiting.tsx';
import { PileRows } from './YardList.tsx';

/** The app was opened without the service: what this phone saw last, with its age, and nothing that looks live. */
export function Unreachable({ why, again }: { readonly why: string; readonly again: () => void }) {
  useEffect(() => {
    void showLastKnown();
    const timer = setInterval(again, 5000);
    return () => clearInterval(timer);
  }, []);
  return (
    <>
      <header class="top">
        <span class="yard-name">{wall.value?.yard.name ?? words.product}</span>
        {wall.value !== null && <NotLive why={why} />}
      </header>
      <Waiting />
      <main class="page">
        <h1 class={wall.value === null ? '' : 'visually-hidden'}>{words.noService}</h1>
        {wall.value === null ? <p>{why}</p> : <PileRows piles={wall.value.piles} />}
        <p>
          <button type="button" onClick={again}>
            {words.tryAgain}
          </button>
        </p>
      </main>
    </>
  );
}
