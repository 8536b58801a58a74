import { useState } from 'preact/hooks';
import type { PileView } from '../../../shared/api/types.ts';
import { methodNames, type PileMethod } from '../../../shared/yard/method.ts';
import { api } from '../../common/api.ts';
import { day } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { Field, Form } from '../Form.tsx';
import { linkTo } from '../route.ts';
import type { StepProps } from './FirstSteps.tsx';
import { MethodQuestions } from './MethodQuestions.tsx';
import { text } from './words.ts';

const dayMs = 86_400_000;

/** The first pile: how it is run by a few questions, then its name and place. */
export function PileStep({ facts, onDone }: StepProps) {
  const open = facts.piles.filter(({ endedMs }) => endedMs === null);
  const [isAdding, setAdding] = useState(false);
  const done = async () => {
    setAdding(false);
    await onDone();
  };
  if (open.length > 0 && !isAdding)
    return (
      <>
        <h2>{text.pilesNow}</h2>
        <ul class="log">
          {open.map((pile) => (
            <li key={pile.id}>
              <a href={linkTo('piles', pile.id)}>{pile.name}</a>
              {text.pileSince(pile.place, methodNames[pile.method], day(pile.startedMs))}
            </li>
          ))}
        </ul>
        <button type="button" class="quiet" onClick={() => setAdding(true)}>
          {text.anotherPile}
        </button>
      </>
    );
  return (
    <>
      <p>{text.pileLead}</p>
      <MethodQuestions>{(method) => <StartForm method={method} onDone={done} />}</MethodQuestions>
    </>
  );
}

interface StartFormProps {
  readonly method: PileMethod;
  readonly onDone: () => Promise<void>;
}

function StartForm({ method, onDone }: StartFormProps) {
  const start = async ({ name, place, daysAgo }: Readonly<Record<string, string>>) => {
    const startedMs = Math.round(serverNowMs.value - Number(daysAgo || 0) * dayMs);
    await api.post<PileView>('/api/piles', { name, place, method, startedMs });
    await onDone();
  };
  return (
    <Form button={text.start} onSend={start}>
      {(wrong) => (
        <>
          <Field label={text.name} name="name" hint={text.nameHint} error={wrong('name')} required />
          <Field label={text.place} name="place" hint={text.placeHint} error={wrong('place')} required />
          <Field
            label={text.days}
            name="daysAgo"
            type="number"
            min="0"
            step="any"
            value="0"
            hint={text.daysHint}
            error={wrong('startedMs')}
          />
        </>
      )}
    </Form>
  );
}
