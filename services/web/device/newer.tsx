import { Button } from '../parts/button.js';
import { Notice } from '../parts/notice.js';
import { say } from '../words/say.js';
import { takeNewer, useNewer } from './worker-life.js';

/** Says that a newer version waits. It is taken when a person says so: what is typed is not lost behind their back. */
export function Newer() {
  const newer = useNewer();
  return (
    <div role="status">
      {newer ? (
        <Notice kind="plain">
          <p>{say('device.newer')}</p>
          <Button kind="quiet" onPress={takeNewer}>
            {say('device.takeNewer')}
          </Button>
        </Notice>
      ) : null}
    </div>
  );
}
