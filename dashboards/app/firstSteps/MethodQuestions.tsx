import { useState } from 'preact/hooks';
import type { MethodLimits } from '../../../shared/api/types.ts';
import { type MethodAnswers, nextMethodStep } from '../../../shared/yard/chooseMethod.ts';
import { methodNames, type PileMethod, pileMethods } from '../../../shared/yard/method.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { Pick } from '../planner/Choice.tsx';
import { focusSoon } from '../planner/focusSoon.ts';
import { useFetched } from '../useFetched.ts';
import { limitLines } from './limitLines.ts';
import { methodLead, questionWords, text } from './words.ts';

interface MethodQuestionsProps {
  /** What follows once a method is found. */
  readonly children: (method: PileMethod) => preact.ComponentChildren;
}

/** Asks in plain words how a pile is run, says what that means for its limits, and goes on. */
export function MethodQuestions({ children }: MethodQuestionsProps) {
  const [answers, setAnswers] = useState<MethodAnswers>({});
  const [picked, setPicked] = useState<PileMethod | null>(null);
  const limits = useFetched<MethodLimits[]>('/api/methods', () => false);
  const step = nextMethodStep(answers);
  const again = () => {
    setAnswers({});
    setPicked(null);
    focusSoon('.question button');
  };
  const method = picked ?? (step.kind === 'found' ? step.method : null);
  if (method === null && step.kind === 'ask') {
    const answer = (yes: boolean) => {
      setAnswers({ ...answers, [step.question]: yes });
      focusSoon('.question button, .found-method');
    };
    return (
      <>
        <fieldset class="question card" aria-live="polite">
          <legend class="question-words">{questionWords[step.question]}</legend>
          <div class="buttons">
            <button type="button" onClick={() => answer(true)}>
              {text.yes}
            </button>
            <button type="button" onClick={() => answer(false)}>
              {text.no}
            </button>
          </div>
        </fieldset>
        <details>
          <summary>{text.pickMyself}</summary>
          <MethodPick onPick={setPicked} />
        </details>
      </>
    );
  }
  const found = limits.data?.find((one) => one.method === method);
  return (
    <>
      <section class="card found-method" tabIndex={-1}>
        <p>
          <Sentence of={text.itIsRunAs} with={{ method: <strong>{methodNames[method!]}</strong> }} />
          <span class="hint">: {methodLead[method!]}</span>
        </p>
        {picked === null && step.kind === 'found' && step.lacks !== null && (
          <p class="wrong-note">{text.lacksChannels}</p>
        )}
        {found && (
          <>
            <h3>{text.means}</h3>
            <ul class="means">
              {limitLines(found).map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </>
        )}
        <button type="button" class="quiet" onClick={again}>
          {text.again}
        </button>
      </section>
      {children(method!)}
    </>
  );
}

function MethodPick({ onPick }: { readonly onPick: (method: PileMethod) => void }) {
  const [method, setMethod] = useState<PileMethod>('static-cage');
  return (
    <>
      <Pick
        label={text.itIs}
        value={method}
        choices={pileMethods.map((one) => [one, methodNames[one]] as const)}
        onChange={setMethod}
      />
      <button type="button" class="quiet" onClick={() => onPick(method)}>
        {text.next}
      </button>
    </>
  );
}
