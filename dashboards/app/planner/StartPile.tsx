import { useState } from 'preact/hooks';
import type { PileView, SessionView } from '../../../shared/api/types.ts';
import type { PileBuild } from '../../../shared/yard/build.ts';
import { methodNames, pileMethods } from '../../../shared/yard/method.ts';
import { api } from '../../common/api.ts';
import { Field, Form } from '../Form.tsx';
import { goTo } from '../route.ts';
import { plan } from './planState.ts';
import { sheetWords } from './sheetWords.ts';

const methodChoices = pileMethods.map((method) => [method, methodNames[method]] as const);

/** Started now by the service's clock: this browser's may be off, and a demo's runs fast. */
async function start(fields: Readonly<Record<string, string | PileBuild | undefined>>): Promise<PileView> {
  const { nowMs } = await api.get<SessionView>('/api/session');
  return api.post<PileView>('/api/piles', { ...fields, startedMs: nowMs });
}

/** Creates the pile, writes the recipe into its journal, leaves its plan with it, and goes to its page. */
export function StartPile({ note, build }: { readonly note: string; readonly build: PileBuild }) {
  // Kept when only the recipe could not be written: pressing again must not start a second pile.
  const [started, setStarted] = useState<PileView | null>(null);
  const send = async ({ name, place, method }: Readonly<Record<string, string>>) => {
    const pile = started ?? (await start({ name, place, method, build }));
    setStarted(pile);
    await api.post(`/api/piles/${encodeURIComponent(pile.id)}/journal`, {
      kind: 'note',
      timeMs: pile.startedMs,
      value: null,
      note,
      pressKey: `recipe-of-${pile.id}`,
    });
    await api.put(`/api/piles/${encodeURIComponent(pile.id)}/plan`, plan.value);
    goTo('piles', pile.id);
  };
  const neverTurned = plan.value.running.turnEveryDays === null;
  return (
    <section class="no-print" aria-labelledby="start-title">
      <h2 id="start-title">{sheetWords.start}</h2>
      <p class="hint">{sheetWords.startHint}</p>
      {started && <p class="note">{sheetWords.halfStarted(started.name)}</p>}
      <Form button={started ? sheetWords.writeRecipe : sheetWords.startPile} onSend={send}>
        {(wrong) =>
          started ? null : (
            <>
              <Field
                label={sheetWords.name}
                name="name"
                hint={sheetWords.nameHint}
                value={plan.value.name}
                error={wrong('name')}
                required
              />
              <Field
                label={sheetWords.place}
                name="place"
                hint={sheetWords.placeHint}
                error={wrong('place')}
                required
              />
              <Field
                label={sheetWords.method}
                name="method"
                value={neverTurned ? 'static-cage' : 'hot-bin'}
                choices={methodChoices}
                error={wrong('method')}
              />
            </>
          )
        }
      </Form>
    </section>
  );
}
