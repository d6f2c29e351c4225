/** What the HTTP edge needs for one alarm opened. */
import type { HistoryEvent, TodoStep, WhyItem } from '../core/alarms/story/index.js';
import type { Alarm } from '../core/model/alarm.js';
import type { CalibratedQuantity } from '../core/model/calibration.js';
import type { Bed } from '../core/model/site.js';
import type { ProbeSeries } from './ports-series.js';

/** The calibration by which readings of a probe were corrected at the time of the alarm. */
export interface CalibrationThen {
  readonly id: string;
  readonly quantity: CalibratedQuantity;
  readonly from: number;
  readonly doneAt: number;
  /** Expanded, k = 2, of the corrected reading that is nearest to the alarm; null without a reading. */
  readonly uncertainty: number | null;
}

export interface StoryProbe {
  readonly probe: string;
  /** Where it lay then; null where it did not lie in this bed. */
  readonly at: { readonly x: number; readonly y: number; readonly depth: number } | null;
  /** A few of its readings around the alarm; undefined where it has none. */
  readonly series: ProbeSeries | undefined;
  /** Of each quantity that it measures; null where there was none in force. */
  readonly calibrations: Readonly<Record<CalibratedQuantity, CalibrationThen | null>>;
}

export interface AlarmStory {
  readonly alarm: Alarm;
  readonly bed: Bed;
  readonly siteName: string;
  readonly timezone: string;
  /** By later readings it never was. */
  readonly withdrawn: boolean;
  /** The alarm that people take for it since; null where there is none. */
  readonly successor: string | null;
  /** What it means for the roots. English. */
  readonly meaning: string;
  readonly why: readonly WhyItem[];
  /** Event times around the alarm, ms: what a plot of the bed would show of it. */
  readonly span: { readonly from: number; readonly to: number };
  readonly probes: readonly StoryProbe[];
  readonly steps: readonly TodoStep[];
  readonly cautions: readonly string[];
  readonly history: readonly HistoryEvent[];
}
