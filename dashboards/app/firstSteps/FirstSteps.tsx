import { useEffect, useRef } from 'preact/hooks';
import { words } from '../../common/words.ts';
import { goTo, linkTo, route } from '../route.ts';
import './firstSteps.css';
import '../probes/probes.css';
import { ChannelsStep } from './ChannelsStep.tsx';
import { IceStep } from './IceStep.tsx';
import { PeopleStep } from './PeopleStep.tsx';
import { PileStep } from './PileStep.tsx';
import { ProbeStep } from './ProbeStep.tsx';
import { doneSteps, nextStep, type SetUpFacts, type StepKey, stepAfter, stepKeys } from './steps.ts';
import { TextStep } from './TextStep.tsx';
import { useSetUpFacts } from './useSetUpFacts.ts';
import { WallStep } from './WallStep.tsx';
import { stepTitles, text } from './words.ts';
import { YardStep } from './YardStep.tsx';

/** What every step gets. */
export interface StepProps {
  readonly facts: SetUpFacts;
  /** The yard was changed: look again what is done. */
  readonly onDone: () => Promise<void>;
}

const views: Readonly<Record<StepKey, (props: StepProps) => preact.ComponentChild>> = {
  yard: YardStep,
  people: PeopleStep,
  pile: PileStep,
  probe: ProbeStep,
  channels: ChannelsStep,
  ice: IceStep,
  text: TextStep,
  wall: WallStep,
};

/** The walk through a new yard. It remembers nothing of its own: what is done is read off the yard. */
export function FirstSteps() {
  const { facts, failure, refetch } = useSetUpFacts();
  const heading = useRef<HTMLHeadingElement>(null);
  const place = route.value[1];
  const asked = stepKeys.find((key) => key === place);
  const isReady = facts !== null;
  const done = facts === null ? new Set<StepKey>() : doneSteps(facts);
  const next = nextStep(done);
  useEffect(() => {
    if (isReady && place === undefined && next !== null) goTo('start', next);
  }, [isReady, place, next]);
  // A new step is read from its heading on, also by those who do not see it change.
  useEffect(() => heading.current?.focus(), [asked, isReady]);
  if (facts === null) return <main class="page">{failure ?? words.fetching}</main>;
  if (asked === undefined) return <Finished heading={heading} done={done} />;
  const View = views[asked];
  return (
    <main class="page first-steps">
      <StepList done={done} here={asked} />
      <div class="step">
        <p class="hint">{text.step(stepKeys.indexOf(asked) + 1, stepKeys.length)}</p>
        <h1 ref={heading} tabIndex={-1}>
          {stepTitles[asked]}
        </h1>
        {failure && <p class="wrong">{failure}</p>}
        <View facts={facts} onDone={refetch} />
        <Onward here={asked} isDone={done.has(asked)} />
      </div>
    </main>
  );
}

function StepList({ done, here }: { readonly done: ReadonlySet<StepKey>; readonly here: StepKey }) {
  return (
    <nav class="step-list" aria-label={text.goOnLink}>
      <ol>
        {stepKeys.map((key, index) => (
          <li key={key} class={done.has(key) ? 'is-done' : ''}>
            <a href={linkTo('start', key)} aria-current={key === here ? 'step' : undefined}>
              <span class="step-mark" aria-hidden="true">
                {done.has(key) ? '\u2713' : index + 1}
              </span>
              <span class="step-name">{stepTitles[key]}</span>
              <span class="visually-hidden">, {done.has(key) ? text.done : text.toDo}</span>
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}

function Onward({ here, isDone }: { readonly here: StepKey; readonly isDone: boolean }) {
  const after = stepAfter(here);
  const next = after === null ? text.next : text.nextStep(stepTitles[after]);
  const onward = isDone ? next : text.later;
  return (
    <footer class="onward">
      <a class={isDone ? 'button' : 'button quiet'} href={linkTo('start', after ?? 'finished')}>
        {onward}
      </a>
      <a href={linkTo()}>{text.leave}</a>
      <span class="hint">{text.leaveHint}</span>
    </footer>
  );
}

interface FinishedProps {
  readonly heading: preact.RefObject<HTMLHeadingElement | null>;
  readonly done: ReadonlySet<StepKey>;
}

/** The end of the walk, with what was left for later. */
function Finished({ heading, done }: FinishedProps) {
  const left = stepKeys.filter((key) => !done.has(key));
  return (
    <main class="page first-steps">
      <div class="step">
        <h1 ref={heading} tabIndex={-1}>
          {left.length === 0 ? text.allDone : text.leftOver}
        </h1>
        {left.length === 0 && <p>{text.allDoneLead}</p>}
        <ul class="left-over">
          {left.map((key) => (
            <li key={key}>
              <a href={linkTo('start', key)}>{stepTitles[key]}</a>
            </li>
          ))}
        </ul>
        <p>
          <a class="button" href={linkTo()}>
            {text.finish}
          </a>
        </p>
      </div>
    </main>
  );
}
