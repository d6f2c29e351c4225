import { Button } from '../parts/button.js';
import { say } from '../words/say.js';
import { useOffer } from './install.js';

/** Offers to keep the page on the device, where the browser can. */
export function KeepHere() {
  const keep = useOffer();
  if (!keep) return null;
  return (
    <section class="card" aria-labelledby="keep-here">
      <h2 id="keep-here">{say('device.keepTitle')}</h2>
      <p>{say('device.keep')}</p>
      <Button kind="quiet" onPress={keep}>
        {say('device.keepNow')}
      </Button>
    </section>
  );
}
