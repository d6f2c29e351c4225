/** The sentence of an alarm, in the language that the service has it in. */
import { withDegrees } from '../../core/alarms/degrees.js';
import type { Alarm } from '../api/types/alarm.js';
import { English } from './notice.js';

export function AlarmText({ alarm: { text, language = 'en' } }: { alarm: Pick<Alarm, 'text' | 'language'> }) {
  return language === 'en' ? <English>{text}</English> : <span lang={language}>{withDegrees(text)}</span>;
}
