import { useState } from 'preact/hooks';
import type { LimitsView } from '../../../shared/api/types.ts';
import type { LimitCaution } from '../../../shared/rules/limitCautions.ts';
import { api, Refusal } from '../../common/api.ts';
import { Field, Form } from '../Form.tsx';
import { mayAct } from '../session.ts';
import { Cautions } from './Cautions.tsx';
import { Changes } from './Changes.tsx';
import type { Change, Trial } from './trial.ts';
import { limitWords } from './words.ts';

interface SaveLimitsProps {
  readonly view: LimitsView;
  readonly trial: Trial;
  readonly changes: readonly Change[];
  readonly cautions: readonly LimitCaution[];
  readonly onSaved: (view: LimitsView) => void;
  readonly onForget: () => void;
}

/** Puts what is on trial in force: what changes, what to mind, why. */
export function SaveLimits({ view, trial, changes, cautions, onSaved, onForget }: SaveLimitsProps) {
  const [saved, setSaved] = useState<number | null>(null);
  const dangers = cautions.filter(({ level }) => level === 'danger');
  const refused = cautions.some(({ level }) => level === 'refused');
  const send = async ({ reason, read }: Readonly<Record<string, string>>) => {
    if (dangers.length > 0 && read !== 'on') throw notRead;
    const answer = await api.put<LimitsView>(`/api/piles/${encodeURIComponent(view.pileId)}/limits`, {
      expectedVersion: view.current.version,
      overrides: trial,
      reason,
    });
    setSaved(answer.current.version);
    onSaved(answer);
  };
  return (
    <section aria-labelledby="save-title">
      <h2 id="save-title">{limitWords.save}</h2>
      {changes.length === 0 ? (
        <p class="hint" role="status">
          {saved === view.current.version ? limitWords.saved(saved) : limitWords.nothingToSave}
        </p>
      ) : (
        <>
          <Changes changes={changes} />
          <Cautions cautions={cautions.filter(({ level }) => level === 'mind')} />
          {!mayAct('keeper') && <p class="hint">{limitWords.viewer}</p>}
          {mayAct('keeper') && !refused && (
            <Form button={limitWords.saveAs(view.current.version + 1)} onSend={send}>
              {(wrong) => (
                <>
                  {dangers.length > 0 && (
                    <label class="tick">
                      <input type="checkbox" name="read" /> {limitWords.readIt}
                    </label>
                  )}
                  <Field
                    label={limitWords.reason}
                    name="reason"
                    hint={limitWords.reasonHint}
                    error={wrong('reason')}
                    required
                  />
                </>
              )}
            </Form>
          )}
          <p class="buttons">
            <button type="button" class="quiet" onClick={onForget}>
              {limitWords.forget}
            </button>
          </p>
        </>
      )}
    </section>
  );
}

const notRead = new Refusal({
  ...{ type: 'about:blank', title: 'failed', status: 400, code: 'bad-request' },
  detail: limitWords.pressSave,
} as ConstructorParameters<typeof Refusal>[0]);
