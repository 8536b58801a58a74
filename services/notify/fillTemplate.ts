/** Where a placeholder stands decides how its value is escaped. */
export type TemplatePlace = 'json' | 'form' | 'url' | 'text' | 'header';

const escapes: Readonly<Record<TemplatePlace, (value: string) => string>> = {
  json: (value) => JSON.stringify(value).slice(1, -1),
  form: encodeURIComponent,
  url: encodeURIComponent,
  text: (value) => value,
  // A line break in a header would start another header.
  header: (value) => value.replaceAll(/[\r\n]+/g, ' '),
};

/**
 * Fills `{{name}}` placeholders, escaping each value for where it stands.
 * @throws Error naming a placeholder that has no value.
 */
export function fillTemplate(
  template: string,
  place: TemplatePlace,
  values: Readonly<Record<string, string>>,
): string {
  return template.replaceAll(/\{\{(\w+)\}\}/g, (_all, name: string) => {
    const value = values[name];
    if (value === undefined) {
      throw new Error(`{{${name}}} has no value; there are ${Object.keys(values).join(', ')}`);
    }
    return escapes[place](value);
  });
}
