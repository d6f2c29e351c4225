/** Messages to people in their language: the only door to this folder. */
export {
  type AnswerWords,
  type Catalogue,
  LANGUAGE_CODES,
  type Language,
  MEANINGS,
  type WordMeaning,
} from './catalogue.js';
export { type Fitted, firstFitting, measured } from './fitting.js';
export { allExample, findingFor, findingSaid, foundExample, laterExample, okExample } from './hint.js';
export { CATALOGUES, catalogueOf, LANGUAGES, type LanguageStatus, languageOf } from './languages.js';
export { PLACE_STYLES, type PlaceStyle } from './place.js';
export { rotLeftSaid } from './rot-left.js';
export { alarmSaid, placeSaid, type Said } from './said.js';
export { joined, plainName, say } from './say.js';
export {
  type BundleItem,
  bundleMessage,
  drillMessage,
  escalationNote,
  type SeveralOptions,
  type Storm,
  summaryMessage,
  unreachedNote,
} from './several.js';
export {
  HIGHEST_NUMBER,
  type ShortMessage,
  type ShortMessageOptions,
  shortMessage,
} from './short-message.js';
export { bundleSubject, drillSubject, eventSubject, summarySubject } from './subject.js';
