/** That what is shown is made up, where the service says so. */
import { useMe } from '../access/me.js';
import { say } from '../words/say.js';
import { dayOf, useZone } from '../words/times.js';
import { Notice } from './notice.js';

export function MadeUp() {
  const season = useMe()?.madeUp;
  if (!season) return null;
  // The frame is there before any area says by which clock its site goes.
  useZone(season.timezone);
  return (
    <Notice kind="plain">
      <p>{say('app.madeUp', { from: dayOf(season.from), to: dayOf(season.to) })}</p>
    </Notice>
  );
}
