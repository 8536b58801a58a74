import { useState } from 'preact/hooks';
import { type ConditionId, type Priority, priorities } from '../../../shared/alarms/alarm.ts';
import type { LimitCondition, LimitsView, PilePage } from '../../../shared/api/types.ts';
import { limitCautions } from '../../../shared/rules/limitCautions.ts';
import { display } from '../../common/format.ts';
import { conditionWords, locale, methodWords, priorityWords } from '../../common/words.ts';
import { linkTo } from '../route.ts';
import { useFetched } from '../useFetched.ts';
import { Cautions } from './Cautions.tsx';
import { CopyLimits } from './CopyLimits.tsx';
import { Headline } from './Headline.tsx';
import { LimitChart } from './LimitChart.tsx';
import { LimitNumbers } from './LimitNumbers.tsx';
import './limits.css';
import { Outcome } from './Outcome.tsx';
import { SaveLimits } from './SaveLimits.tsx';
import { Select } from './Select.tsx';
import { groupOf, type Stretch, StretchChoice, stretchStart } from './Stretch.tsx';
import { Suggested } from './Suggested.tsx';
import { changesBetween, ofPile, type Trial, valuesOf, withCondition, withValue } from './trial.ts';
import { usePast } from './usePast.ts';
import { useReplay } from './useReplay.ts';
import { Versions } from './Versions.tsx';
import { limitWords } from './words.ts';

const textChoices = priorities.map(
  (priority) => [priority, limitWords.andAbove(priorityWords[priority], priority === 'highest')] as const,
);

/** Limits of one pile, tried against its own past before they are saved. */
export function LimitsScreen({ pileId }: { readonly pileId: string }) {
  const path = `/api/piles/${encodeURIComponent(pileId)}/page`;
  const { data, failure, refetch } = useFetched<PilePage>(
    path,
    ({ kind, id }) => kind === 'pile' && id === pileId,
  );
  if (data === null) return <main class="page">{failure ?? limitWords.fetchingPile}</main>;
  return <Tuning page={data} refetch={refetch} />;
}

function Tuning({ page, refetch }: { readonly page: PilePage; readonly refetch: () => Promise<void> }) {
  const { pile } = page;
  const view: LimitsView = { ...page.limits, conditions: ofPile(page.limits.conditions) };
  // What comes while somebody tunes is left out: the past must stand still under the line that is pulled over it.
  const [openedMs] = useState(() => pile.endedMs ?? page.nowMs);
  const [stretch, setStretch] = useState<Stretch>(
    openedMs - pile.startedMs > 92 * 86_400_000 ? 'months' : 'life',
  );
  const [textsFrom, setTextsFrom] = useState<Priority>('medium');
  const [chosen, setChosen] = useState<ConditionId>(() => firstShown(page));
  const [trial, setTrial] = useState<Trial>(view.current.overrides);
  const [base, setBase] = useState(view.current.version);
  const condition = view.conditions.find((one) => one.condition === chosen)!;
  const changes = changesBetween(view.conditions, view.current.overrides, trial);
  const past = usePast(pile.id, stretchStart(stretch, pile.startedMs, openedMs), openedMs);
  const replay = useReplay({
    ...{ held: past.held, current: view.current, textsFrom, condition: chosen },
    trial: changes.length === 0 ? null : trial,
  });
  const cautions = limitCautions(view.method, valuesOf(view.conditions, trial), display.value.unit);
  const taken = async (saved: LimitsView) => {
    setTrial(saved.current.overrides);
    setBase(saved.current.version);
    await refetch();
  };
  return (
    <main class="page limits">
      <p class="way-back">
        <a href={linkTo('piles', pile.id)}>{limitWords.backTo(pile.name)}</a>
      </p>
      <h1>{limitWords.title(pile.name)}</h1>
      <p class="hint">{standingWords(methodWords[pile.method], view.current)}</p>
      {base !== view.current.version && <p class="note">{limitWords.meanwhile}</p>}
      <div class="limit-head">
        <WhichLimit view={view} trial={trial} chosen={chosen} onChoose={setChosen} />
        <StretchChoice stretch={stretch} onChange={setStretch} lifeMs={openedMs - pile.startedMs} />
        <Select
          label={limitWords.texted}
          value={textsFrom}
          onChange={setTextsFrom}
          groups={[{ title: '', choices: textChoices }]}
        />
      </div>
      <div class="limit-columns">
        <div>
          {past.failure && <p class="wrong">{past.failure}</p>}
          {past.held === null && past.failure === null && (
            <label class="replay-progress">
              {limitWords.fetchingPast} <progress value={past.share} max="1" />
            </label>
          )}
          {past.held !== null && (
            <LimitChart
              condition={condition}
              held={past.held}
              inForce={view.current.overrides}
              trial={trial}
              outcome={replay.outcome}
              onChange={(parameter, value) => setTrial(withValue(trial, chosen, parameter, value))}
            />
          )}
          {changes.length > 0 && <Cautions cautions={cautions.filter(({ level }) => level !== 'mind')} />}
          {replay.outcome !== null && <Headline outcome={replay.outcome} />}
          <LimitNumbers
            key={chosen}
            condition={condition}
            trial={trial}
            onChange={(parameter, value) => setTrial(withValue(trial, chosen, parameter, value))}
            onMethods={() => setTrial(withCondition(trial, chosen, null))}
          />
          <Suggested
            condition={condition}
            suggestion={replay.suggestion}
            searching={replay.searching}
            trial={trial}
            onTake={(own) => setTrial(withCondition(trial, chosen, own))}
          />
        </div>
        <div>
          <section aria-labelledby="outcome-title" aria-busy={replay.share !== null}>
            <h2 id="outcome-title">{limitWords.outcome}</h2>
            <Progress state={replay} />
            {replay.outcome !== null && (
              <Outcome
                outcome={replay.outcome}
                conditions={view.conditions.map((one) => one.condition)}
                chosen={chosen}
                onChoose={setChosen}
              />
            )}
          </section>
          <SaveLimits
            view={view}
            trial={trial}
            changes={changes}
            cautions={cautions}
            onSaved={(saved) => void taken(saved)}
            onForget={() => setTrial(view.current.overrides)}
          />
        </div>
      </div>
      <Versions view={view} onChanged={(saved) => void taken(saved)} />
      {page.mayWrite && <CopyLimits view={view} hasTrial={changes.length > 0} />}
    </main>
  );
}

function standingWords(method: string, { version, by, reason }: LimitsView['current']): string {
  return version > 0 && by
    ? limitWords.standingBy(method, version, by, reason)
    : limitWords.standing(method, version);
}

/** What is drawn first: the pressing alarm about this pile if there is one, else the ceiling. */
function firstShown({ alarms, limits }: PilePage): ConditionId {
  const known = ofPile(limits.conditions).map(({ condition }) => condition);
  const standing = alarms.find(({ condition }) => known.includes(condition));
  if (standing !== undefined) return standing.condition;
  return known.find((condition) => condition === 'too-hot-ceiling') ?? known[0]!;
}

function Progress({ state }: { readonly state: ReturnType<typeof useReplay> }) {
  if (state.failure) return <p class="wrong">{state.failure}</p>;
  if (state.share !== null)
    return (
      <div class="replay-progress">
        <label>
          {limitWords.replaying} <progress value={state.share} max="1" />
        </label>{' '}
        <button type="button" class="quiet small" onClick={state.stop}>
          {limitWords.stop}
        </button>
      </div>
    );
  if (state.stopped)
    return (
      <div class="replay-progress">
        {limitWords.stopped}{' '}
        <button type="button" class="quiet small" onClick={state.again}>
          {limitWords.again}
        </button>
      </div>
    );
  if (state.outcome === null || state.tookMs === null) return null;
  return (
    <p class="hint">
      {limitWords.replayed(state.outcome.readings.toLocaleString(locale), state.tookMs)} {limitWords.nobody}
    </p>
  );
}

interface WhichLimitProps {
  readonly view: LimitsView;
  readonly trial: Trial;
  readonly chosen: ConditionId;
  readonly onChoose: (condition: ConditionId) => void;
}

function WhichLimit({ view, trial, chosen, onChoose }: WhichLimitProps) {
  const label = ({ condition }: LimitCondition) =>
    trial[condition] === undefined
      ? conditionWords[condition]
      : limitWords.changed(conditionWords[condition]);
  const groups = [...Map.groupBy(view.conditions, groupOf)].map(([group, conditions]) => ({
    title: limitWords.groups[group],
    choices: conditions.map((one) => [one.condition, label(one)] as const),
  }));
  return <Select label={limitWords.which} value={chosen} onChange={onChoose} groups={groups} />;
}
