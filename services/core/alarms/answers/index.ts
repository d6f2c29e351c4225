/** Answers of people to messages: the only door to this folder. */
export {
  type Answer,
  QUIET_h,
  UNCLEAR_REASONS,
  type UnclearReason,
  type UnderstoodAnswer,
} from './answer.js';
export { parseAnswer } from './parse-answer.js';
export {
  nothingOpenMessage,
  notUnderstoodMessage,
  thanksMessage,
  type Waiting,
  whichMessage,
} from './replies.js';
