/** The language in which texts are asked for. */
import { z } from 'zod';

/** A tag as RFC 5646 writes it, without what nobody asks for here. */
const TAG = /^[a-z]{2,8}(-[a-z0-9]{1,8}){0,3}$/i;

export const languageSchema = z
  .string()
  .regex(TAG, 'expected a language such as sw or fr-CM')
  .optional()
  .meta({
    description: 'Language of texts; by Accept-Language where absent, English where it is not spoken here',
  });

export const languageQuerySchema = z.strictObject({ language: languageSchema });

/** For addresses that never asked for anything else: whatever else stands in the query is not read. */
export const onlyLanguageSchema = z.object({ language: languageSchema });
