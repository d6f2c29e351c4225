/** What stands was changed by somebody else since it was read here. */
import { say } from '../words/say.js';
import { Button } from './button.js';
import { Notice } from './notice.js';

export function Stale({ onReadAgain }: { onReadAgain: () => void }) {
  return (
    <Notice kind="plain">
      <p>{say('settings.stale')}</p>
      <Button kind="quiet" onPress={onReadAgain}>
        {say('settings.readAgain')}
      </Button>
    </Notice>
  );
}
