/** Names for machines: what topics and addresses call a bed, a person or a group. */
import { say } from '../words/say.js';

const ID = /^[a-z0-9][a-z0-9-]{0,31}$/;

/** A name for machines made from one for people: `Pit E` is `pit-e`; empty where no letter of it can be used. */
export const idFrom = (name: string): string =>
  name
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 32);

/** What is wrong with one that was typed; undefined where nothing is. */
export const idProblem = (id: string): string | undefined =>
  ID.test(id) ? undefined : say('settings.idWrong');
