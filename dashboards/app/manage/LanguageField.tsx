import { languageNames, languages } from '../../../shared/messages/words/languageNames.ts';
import { Field } from '../Form.tsx';
import { text } from './words.ts';

/** What texts to a person are written in. */
export function LanguageField({ value = 'en' }: { readonly value?: string }) {
  return (
    <Field
      label={text.language}
      name="language"
      value={value}
      choices={languages.map((language) => [language, languageNames[language]])}
    />
  );
}
