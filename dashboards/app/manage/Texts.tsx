import './texts.css';
import { useState } from 'preact/hooks';
import type { WordingsView } from '../../../shared/api/types.ts';
import { type WordingKey, wordingIn, wordingKeys, wordingsOf } from '../../../shared/messages/wordings.ts';
import { type Language, languageNames, languages } from '../../../shared/messages/words/languages.ts';
import { useFetched } from '../useFetched.ts';
import { WordingEditor } from './WordingEditor.tsx';
import { wordingTitles, wordingWords } from './wordingWords.ts';

/** Every text that may be worded anew: which one, in which language, and its editor. */
export function Texts() {
  const { data, failure, refetch } = useFetched<WordingsView>('/api/wordings', () => false);
  const [key, setKey] = useState<WordingKey>('alarm.text');
  const [language, setLanguage] = useState<Language>('en');
  if (data === null) return <p>{failure ?? wordingWords.fetching}</p>;
  const own = data.overrides[language] ?? {};
  const template = wordingIn(wordingsOf(data.overrides)(language), key);
  return (
    <>
      <p class="hint">{wordingWords.intro}</p>
      <div class="wording-choice">
        <label class="field">
          {wordingWords.which}
          <select value={key} onChange={({ currentTarget }) => setKey(currentTarget.value as WordingKey)}>
            {wordingKeys.map((one) => (
              <option key={one} value={one}>
                {own[one] === undefined ? wordingTitles[one] : wordingWords.titleAndOwn(wordingTitles[one])}
              </option>
            ))}
          </select>
        </label>
        <label class="field">
          {wordingWords.language}
          <select
            value={language}
            onChange={({ currentTarget }) => setLanguage(currentTarget.value as Language)}
          >
            {languages.map((one) => (
              <option key={one} value={one}>
                {languageNames[one]}
              </option>
            ))}
          </select>
        </label>
      </div>
      <WordingEditor
        key={`${language} ${key}`}
        {...{ view: data, language, wordingKey: key, template }}
        isOwn={own[key] !== undefined}
        onSaved={refetch}
      />
    </>
  );
}
