/** The secret of one probe or lamp: since when, made, shown once, renewed, taken away. */
import { useState } from 'preact/hooks';
import { ask } from '../../api/client.js';
import type { DeviceSecret, MadeSecret } from '../../api/types/access.js';
import { Button } from '../../parts/button.js';
import { messageOf } from '../../parts/form.js';
import { Notice } from '../../parts/notice.js';
import { Question } from '../../parts/question.js';
import { When } from '../../parts/when.js';
import { say } from '../../words/say.js';
import { siteAddress } from '../of-site.js';
import { Once } from '../once.js';

interface SecretParts {
  readonly site: string;
  readonly kind: DeviceSecret['kind'];
  readonly id: string;
  /** Undefined where it has none. */
  readonly secret: DeviceSecret | undefined;
  readonly again: () => void;
}

export function DeviceSecretOf({ site, kind, id, secret, again }: SecretParts) {
  const [made, setMade] = useState<MadeSecret>();
  const [asked, setAsked] = useState<'renew' | 'revoke'>();
  const [failed, setFailed] = useState<string>();
  const address = `${siteAddress(site)}/${kind}s/${encodeURIComponent(id)}/secret`;
  const act = async (path: string): Promise<void> => {
    setFailed(undefined);
    setMade(undefined);
    try {
      setMade(await ask<MadeSecret | undefined>(path, { method: 'POST', body: {} }));
    } catch (error) {
      setFailed(messageOf(error));
    }
    setAsked(undefined);
    again();
  };
  const make = (): Promise<void> => act(address);
  return (
    <>
      <p>{secret ? <Since secret={secret} /> : say('access.secretNone')}</p>
      {failed === undefined ? null : (
        <Notice kind="refusal">
          <p>{failed}</p>
        </Notice>
      )}
      {made ? <Made made={made} onHave={() => setMade(undefined)} /> : null}
      {asked === undefined ? (
        <div class="buttons">
          <Button
            kind="quiet"
            label={named(secret ? 'secretRenew' : 'secretMake', id)}
            onPress={secret ? () => setAsked('renew') : make}
          >
            {say(secret ? 'access.secretRenew' : 'access.secretMake')}
          </Button>
          {secret ? (
            <Button kind="quiet" label={named('secretRevoke', id)} onPress={() => setAsked('revoke')}>
              {say('access.secretRevoke')}
            </Button>
          ) : null}
        </div>
      ) : (
        <Question
          text={say(asked === 'renew' ? 'access.secretRenewSure' : 'access.secretRevokeSure', { id })}
          yes={say(asked === 'renew' ? 'access.secretRenew' : 'access.secretRevoke')}
          no={say('parts.leaveIt')}
          onYes={asked === 'renew' ? make : () => act(`${address}/revoke`)}
          onNo={() => setAsked(undefined)}
        />
      )}
    </>
  );
}

const named = (what: 'secretMake' | 'secretRenew' | 'secretRevoke', id: string): string =>
  `${say(`access.${what}`)}: ${id}`;

function Since({ secret: { user, madeAt } }: { secret: DeviceSecret }) {
  return (
    <>
      {say('access.secretSince')} <When at={madeAt} />. {say('access.secretUser')}: <code>{user}</code>
    </>
  );
}

/** Shown until whoever made it has it. */
export function Made({
  made: { user, secret, isDescribed },
  onHave,
}: {
  made: MadeSecret;
  onHave: () => void;
}) {
  return (
    <Once
      text={say('access.secretOnce')}
      beside={[[say('access.secretUser'), user]]}
      named={say('access.password')}
      {...{ secret, onHave }}
    >
      {isDescribed ? null : <p>{say('access.secretStranger')}</p>}
    </Once>
  );
}
