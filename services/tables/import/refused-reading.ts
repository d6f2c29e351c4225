/** A reading that was understood and is set aside, as a line among those that are refused. */
import { formatTime } from '../../core/model/time.js';
import type { RefusedLine } from './refusal.js';
import type { TableReading } from './row-reader.js';

export function refusedReading(
  { line, probe, time, values }: TableReading,
  { reason, detail }: { readonly reason: string; readonly detail: string },
): RefusedLine {
  return {
    line,
    column: '',
    reason,
    detail,
    text: JSON.stringify({ probe, time: formatTime(time), ...values }),
  };
}
