/** What the HTTP edge needs to say what needs a person. */
import type { TodayItem } from '../core/keeping/index.js';
import type { Language } from '../core/model/languages.js';

export interface TodayView {
  /** Wall clock, ms. */
  readonly at: number;
  /** Tag of the language in which texts are where it has the words. */
  readonly language: Language;
  /** Whether a native speaker has read them; where not, they are drafts. */
  readonly nativeReviewed: boolean;
  readonly items: readonly TodayItem[];
}

export interface TodayPorts {
  /** @param language of the texts, where it has the words */
  today(language: Language): TodayView;
}
