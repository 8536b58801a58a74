/** Languages texts are written in; the first is what a person gets who chose none. */
export const languages = ['en', 'de'] as const;
export type Language = (typeof languages)[number];

/** Each by its own name, as a list to choose from shows it. */
export const languageNames: Readonly<Record<Language, string>> = { en: 'English', de: 'Deutsch' };
