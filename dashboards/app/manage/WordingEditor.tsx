import { useEffect, useRef, useState } from 'preact/hooks';
import type { WordingsView } from '../../../shared/api/types.ts';
import { checkWording, type TextLength, type WordingPreview } from '../../../shared/messages/checkWording.ts';
import { wordingExamples } from '../../../shared/messages/wordingExamples.ts';
import {
  type WordingKey,
  type WordingSpec,
  wordingSpecs,
  wordingsOf,
} from '../../../shared/messages/wordings.ts';
import type { Language } from '../../../shared/messages/words/languages.ts';
import { api } from '../../common/api.ts';
import { failureText, mayAct } from '../session.ts';
import { placeholderWords, wordingWords } from './wordingWords.ts';

interface EditorProps {
  readonly view: WordingsView;
  readonly language: Language;
  readonly wordingKey: WordingKey;
  /** As it is said now. */
  readonly template: string;
  readonly isOwn: boolean;
  readonly onSaved: () => Promise<void>;
}

/** One text: its template, what may be filled in, what is wrong with it, and how it arrives, all while somebody types. */
export function WordingEditor({ view, language, wordingKey, template, isOwn, onSaved }: EditorProps) {
  const [draft, setDraft] = useState(template);
  const [busy, setBusy] = useState(false);
  const [told, setTold] = useState<{ readonly isWrong: boolean; readonly text: string } | null>(null);
  const area = useRef<HTMLTextAreaElement>(null);
  // Saved here or elsewhere: what is said now is what is shown.
  useEffect(() => setDraft(template), [template]);
  const words = wordingsOf(view.overrides)(language);
  const checked = checkWording(wordingKey, draft, wordingExamples(wordingKey, view.example, words));
  const send = async (next: string | null) => {
    setBusy(true);
    setTold(null);
    try {
      const change = { expectedVersion: view.version, language, key: wordingKey, template: next };
      await api.put<WordingsView>('/api/wordings', change);
      setTold({ isWrong: false, text: wordingWords.saved });
      await onSaved();
    } catch (error) {
      setTold({ isWrong: true, text: failureText(error) });
    }
    setBusy(false);
  };
  const insert = (name: string) => {
    const { selectionStart: from = draft.length, selectionEnd: to = draft.length } = area.current ?? {};
    setDraft(`${draft.slice(0, from)}{${name}}${draft.slice(to)}`);
    area.current?.focus();
  };
  const isChanged = draft !== template;
  return (
    <div class="wording">
      <label class="field" for="wording-template">
        {wordingWords.template} <span class="hint">({isOwn ? wordingWords.own : wordingWords.ours})</span>
      </label>
      <textarea
        id="wording-template"
        ref={area}
        rows={4}
        value={draft}
        spellcheck={false}
        readOnly={!mayAct('owner')}
        aria-describedby="wording-problems"
        aria-invalid={checked.problems.length > 0}
        onInput={({ currentTarget }) => setDraft(currentTarget.value)}
      />
      <div id="wording-problems" aria-live="polite">
        {checked.problems.map((problem) => (
          <p key={problem} class="wrong">
            {problem}
          </p>
        ))}
        {told !== null && <p class={told.isWrong ? 'wrong' : 'note'}>{told.text}</p>}
      </div>
      {mayAct('owner') && (
        <p class="wording-buttons">
          <button
            type="button"
            disabled={busy || !isChanged || checked.problems.length > 0}
            onClick={() => void send(draft)}
          >
            {busy ? wordingWords.saving : wordingWords.save}
          </button>
          {isOwn && (
            <button type="button" class="quiet" disabled={busy} onClick={() => void send(null)}>
              {wordingWords.takeOurs}
            </button>
          )}
        </p>
      )}
      <FillIns spec={wordingSpecs[wordingKey]} onInsert={insert} />
      <h2>{wordingWords.preview}</h2>
      {checked.previews.length === 0 && <p class="hint">{wordingWords.nothingYet}</p>}
      <ul class="log previews">
        {checked.previews.map((preview, index) => (
          <Preview key={index} preview={preview} />
        ))}
      </ul>
    </div>
  );
}

function FillIns({
  spec,
  onInsert,
}: {
  readonly spec: WordingSpec;
  readonly onInsert: (name: string) => void;
}) {
  return (
    <fieldset class="fill-ins" disabled={!mayAct('owner')}>
      <legend>{wordingWords.mayFillIn}</legend>
      <ul class="log">
        {spec.allowed.map((name) => (
          <li key={name}>
            <button type="button" class="quiet" onClick={() => onInsert(name)}>
              {`{${name}}`}
            </button>{' '}
            {placeholderWords[name]}
            {spec.needed.includes(name) && <strong>, {wordingWords.must}</strong>}
          </li>
        ))}
      </ul>
    </fieldset>
  );
}

function Preview({ preview }: { readonly preview: WordingPreview }) {
  const { text, whole, before, after, leftOut } = preview;
  const notes = [
    wordingWords.length(after.characters, wordingWords.parts(after.parts)),
    ...(after.units > after.characters ? [wordingWords.double] : []),
    ...(text === whole ? [] : [inFull(before)]),
    ...(leftOut.length > 0
      ? [wordingWords.leftOut(leftOut.map((name) => placeholderWords[name] ?? name).join(', '))]
      : []),
    ...(text !== whole && leftOut.length === 0 ? [wordingWords.shortened] : []),
  ];
  return (
    <li>
      <p class="text-body">{text}</p>
      <p class="hint">{notes.join('; ')}</p>
    </li>
  );
}

const inFull = ({ characters, parts }: TextLength) =>
  wordingWords.wouldBe(characters, wordingWords.parts(parts));
