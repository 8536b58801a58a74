import { z } from 'zod';
import { longestWording, wordingKeys } from './wordings.ts';
import { languages } from './words/languageNames.ts';

const ownWordings = z.partialRecord(z.enum(wordingKeys), z.string().min(1).max(longestWording));

/** What a yard says in its own words, by language: checked apart, so that screens need not carry the checker. */
export const wordingOverridesSchema = z.partialRecord(z.enum(languages), ownWordings);
