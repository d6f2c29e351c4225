/** Whether a probe lies as deep as said, in a word or two. */
import type { BuriedDepth } from '../api/types/filling.js';
import { say } from '../words/say.js';

export const depthWord = (verdict: BuriedDepth['verdict']): string =>
  ({
    'as planned': say('fill.asSaid'),
    shallower: say('fill.shallower'),
    deeper: say('fill.deeper'),
    'cannot tell': say('fill.cannotTell'),
  })[verdict];
