import { useState } from 'preact/hooks';
import type { DutyView } from '../../../../shared/api/types.ts';
import type { DutyPlan } from '../../../../shared/messages/dutyPlan.ts';
import { api, Refusal } from '../../../common/api.ts';
import { dayAndTime } from '../../../common/format.ts';
import { words } from '../../../common/words.ts';
import { failureText, mayAct } from '../../session.ts';
import { useFetched } from '../../useFetched.ts';
import './duty.css';
import { Days } from './Days.tsx';
import { Regular } from './Regular.tsx';
import { Roster } from './Roster.tsx';
import { Timing } from './Timing.tsx';
import { Turns } from './Turns.tsx';
import { text } from './words.ts';

/** What each part of the screen gets. */
export interface PartProps {
  readonly plan: DutyPlan;
  readonly people: DutyView['people'];
  /** Changes the draft; nothing is sent yet. */
  readonly onChange: (change: Partial<DutyPlan>) => void;
}

/** What is being changed, and the version it began from: what others save meanwhile must not be overwritten unseen. */
interface Draft {
  readonly plan: DutyPlan;
  readonly version: number;
}

/** The duty plan: seen by keepers, changed by owners, saved as a whole. */
export function Duty() {
  const duty = useFetched<DutyView>('/api/duty', ({ kind }) => kind === 'people');
  const [draft, setDraft] = useState<Draft | null>(null);
  const [failure, setFailure] = useState<unknown>(null);
  const [isSaved, setSaved] = useState(false);
  if (duty.data === null) return <p>{duty.failure ?? words.fetching}</p>;
  const { version, people, onDuty, by, savedMs } = duty.data;
  const plan = draft?.plan ?? duty.data.plan;
  const isOwner = mayAct('owner');
  const change = (more: Partial<DutyPlan>) => {
    setDraft({ plan: { ...plan, ...more }, version: draft?.version ?? version });
    setSaved(false);
  };
  const drop = async () => {
    await duty.refetch();
    setDraft(null);
    setFailure(null);
  };
  const save = async () => {
    try {
      await api.put('/api/duty', { expectedVersion: draft?.version ?? version, plan });
      await drop();
      setSaved(true);
    } catch (error) {
      setFailure(error);
    }
  };
  const parts = { plan, people, onChange: change };
  return (
    <>
      <p>{text.lead}</p>
      <p>
        {text.nowOnDuty} <strong>{nowWords(onDuty)}</strong>
      </p>
      <Roster plan={plan} people={people} />
      {isOwner && (
        <>
          <Turns {...parts} />
          <Days {...parts} />
          <Timing {...parts} />
          <Regular {...parts} />
          <SaveBar isDirty={draft !== null} isSaved={isSaved} failure={failure} onSave={save} onDrop={drop} />
        </>
      )}
      {version > 0 && <p class="hint">{text.byWhom(by ?? '', dayAndTime(savedMs))}</p>}
    </>
  );
}

function nowWords(rounds: DutyView['onDuty']): string {
  if (rounds.length === 0) return text.nobodyNow;
  return rounds.map((round) => round.join(', ')).reduce((first, next) => text.afterThem(first, next));
}

interface SaveBarProps {
  readonly isDirty: boolean;
  readonly isSaved: boolean;
  readonly failure: unknown;
  readonly onSave: () => Promise<void>;
  readonly onDrop: () => Promise<void>;
}

/** Stays in sight while something is unsaved: a long page must not swallow a change. */
function SaveBar({ isDirty, isSaved, failure, onSave, onDrop }: SaveBarProps) {
  const isOvertaken = failure instanceof Refusal && failure.problem.code === 'changed-meanwhile';
  return (
    <div class={isDirty ? 'save-bar is-dirty' : 'save-bar'} role="status">
      {failure !== null && <p class="wrong">{isOvertaken ? text.changedMeanwhile : failureText(failure)}</p>}
      {isDirty && (
        <>
          <p>{text.unsaved}</p>
          <div class="buttons">
            {!isOvertaken && (
              <button type="button" onClick={() => void onSave()}>
                {text.save}
              </button>
            )}
            <button type="button" class="quiet" onClick={() => void onDrop()}>
              {isOvertaken ? text.takeTheirs : text.undo}
            </button>
          </div>
        </>
      )}
      {!isDirty && isSaved && <p>{text.saved}</p>}
    </div>
  );
}
