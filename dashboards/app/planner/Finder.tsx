import { useState } from 'preact/hooks';
import { newLine, waterId } from '../../../shared/compost/planner/plan.ts';
import { searchFeedstocks } from '../../../shared/compost/planner/searchFeedstocks.ts';
import { feedstockCell } from './feedstockCell.ts';
import { focusSoon } from './focusSoon.ts';
import { change, plan } from './planState.ts';
import { text } from './words.ts';

/** Rows shown at most: a longer list is no quicker than typing one more letter. */
const mostShown = 8;

/** The feedstock table, searched by name; every row shows its numbers and where they were seen. */
export function Finder() {
  const [typed, setTyped] = useState('');
  const found = searchFeedstocks(typed);
  const add = (feedstockId: string | null, name: string) => {
    change({ lines: [...plan.value.lines, newLine(plan.value, feedstockId, name)] });
    setTyped('');
    focusSoon('.line-list > li:last-child input');
  };
  const hasWater = plan.value.lines.some(({ feedstockId }) => feedstockId === waterId);
  return (
    <div class="finder">
      <div class="field">
        <label for="find-ingredient">{text.search}</label>
        <input
          id="find-ingredient"
          type="search"
          autocomplete="off"
          value={typed}
          aria-describedby="find-hint"
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
        <p id="find-hint" class="hint" role="status">
          {typed.trim() === '' ? text.searchHint : foundWords(found.length)}
        </p>
      </div>
      <ul class="found">
        {found.slice(0, mostShown).map((feedstock) => (
          <li key={feedstock.id}>
            <button type="button" class="quiet" onClick={() => add(feedstock.id, feedstock.name)}>
              <strong>{feedstock.name}</strong>
              <span class="hint">{feedstockCell(feedstock)}</span>
            </button>
          </li>
        ))}
      </ul>
      <p class="buttons">
        <button type="button" class="quiet" onClick={() => add(null, '')}>
          {text.addOwn}
        </button>
        {!hasWater && (
          <button type="button" class="quiet" onClick={() => add(waterId, text.water)}>
            {text.addWater}
          </button>
        )}
      </p>
    </div>
  );
}

function foundWords(count: number): string {
  if (count === 0) return text.nothingFound;
  return count > mostShown ? text.foundFirst(count, mostShown) : text.found(count);
}
