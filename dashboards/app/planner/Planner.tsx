import { useEffect } from 'preact/hooks';
import { followLive } from '../../common/live.ts';
import { linkTo, route } from '../route.ts';
import { BuildPart } from './BuildPart.tsx';
import { CagePart } from './CagePart.tsx';
import { Pick } from './Choice.tsx';
import { withNewDraft, withoutCurrent } from './drafts.ts';
import { HeatPart } from './HeatPart.tsx';
import { MixPart } from './MixPart.tsx';
import './planner.css';
import { change, drafts, kept, plan } from './planState.ts';
import { partTitles, text } from './words.ts';

const parts = [
  ['mix', MixPart],
  ['cage', CagePart],
  ['heat', HeatPart],
  ['build', BuildPart],
] as const;

/** From what is in the yard to a sheet to build from: mix, cage, course, sheet. */
export function Planner() {
  // Nothing here is fetched, but the clock must run and a lost link must show.
  useEffect(() => followLive({ refresh: () => {} }), []);
  const [chosen, Part] = parts.find(([key]) => key === route.value[1]) ?? parts[0];
  return (
    <main class="page planner">
      <h1>{text.title}</h1>
      <Drafts />
      <nav class="parts" aria-label={text.parts}>
        {parts.map(([key]) => (
          <a key={key} href={linkTo('planner', key)} aria-current={key === chosen ? 'page' : undefined}>
            {partTitles[key]}
          </a>
        ))}
      </nav>
      <Part key={drafts.value.currentId} />
    </main>
  );
}

function Drafts() {
  const { plans, currentId } = drafts.value;
  return (
    <section class="drafts" aria-label={text.plans}>
      <div class="field">
        <label for="plan-name">{text.planName}</label>
        <input
          id="plan-name"
          value={plan.value.name}
          maxLength={80}
          placeholder={text.unnamed}
          onInput={(event) => change({ name: event.currentTarget.value })}
        />
      </div>
      {plans.length > 1 && (
        <Pick
          label={text.otherPlan}
          value={currentId}
          choices={plans.map(({ id, plan: { name } }) => [
            id,
            name.trim() || text.unnamedNumber(id.slice(1)),
          ])}
          onChange={(id) => {
            drafts.value = { plans, currentId: id };
          }}
        />
      )}
      <p class="buttons">
        <button
          type="button"
          class="quiet"
          onClick={() => {
            drafts.value = withNewDraft(drafts.value);
          }}
        >
          {text.newPlan}
        </button>
        <DeleteButton />
      </p>
      <p class={kept.value ? 'hint' : 'wrong'}>{kept.value ? text.keptHere : text.notKept}</p>
    </section>
  );
}

function DeleteButton() {
  const remove = () => {
    const name = plan.value.name.trim() || text.unnamed;
    if (confirm(text.deleteSure(name))) drafts.value = withoutCurrent(drafts.value);
  };
  return (
    <button type="button" class="quiet" onClick={remove}>
      {text.deletePlan}
    </button>
  );
}
