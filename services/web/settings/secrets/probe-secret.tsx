/** On the page of a probe: its secret at the broker. */
import { Shown } from '../../parts/shown.js';
import { say } from '../../words/say.js';
import { DeviceSecretOf } from './device-secret.js';
import { useSecrets } from './use-secrets.js';

export function ProbeSecret({ site, id }: { site: string; id: string }) {
  const { seenBy, seen } = useSecrets(site);
  return (
    <section aria-labelledby="probe-secret">
      <h2 id="probe-secret">{say('access.secretTitle')}</h2>
      <p>{say('access.secretAbout')}</p>
      {seenBy === 'here' ? (
        <Shown of={seen}>
          {(all) => (
            <DeviceSecretOf
              {...{ site, id, kind: 'probe', again: seen.again }}
              secret={all.find((one) => one.kind === 'probe' && one.id === id)}
            />
          )}
        </Shown>
      ) : (
        <p class="not-yours">{say(seenBy === 'nobody' ? 'access.secretNobody' : 'access.secretOthers')}</p>
      )}
    </section>
  );
}
