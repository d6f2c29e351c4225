/** Signing in: by name and password, or by the link that brought somebody here. */
import { useEffect, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { ask, Refusal } from '../api/client.js';
import type { Me } from '../api/types/access.js';
import { Button } from '../parts/button.js';
import { TextField } from '../parts/field.js';
import { Form } from '../parts/form.js';
import { Notice } from '../parts/notice.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { setMe, useMe } from './me.js';

interface Purpose {
  readonly purpose: 'first-steward' | 'choose-password' | 'sign-in';
  readonly name: string | null;
}

/** The secret never leaves the address by itself: what follows # is not sent. */
const secretNow = (): string => location.hash.slice(1);

export default function SignInPage() {
  const [secret] = useState(secretNow());
  const [purpose, setPurpose] = useState<Purpose | 'none' | undefined>(secret === '' ? 'none' : undefined);
  const [isOver, setOver] = useState(false);
  useEffect(() => {
    if (secret === '') return;
    ask<Purpose>('/api/sign-in/look', { method: 'POST', body: { link: secret } }).then(setPurpose, () => {
      setOver(true);
      setPurpose('none');
    });
  }, [secret]);
  if (purpose === undefined) return <p role="status">{say('parts.asking')}</p>;
  if (purpose !== 'none') return <ByLink secret={secret} purpose={purpose} />;
  return (
    <>
      <Title>{say('access.signIn')}</Title>
      {isOver ? <Notice kind="refusal">{say('access.linkOver')}</Notice> : null}
      <ByPassword />
      <p>
        <a class="back" href="/settings/device">
          {say('settings.device')}
        </a>
      </p>
    </>
  );
}

/** Asks to be let in. What the service says of a wrong name or of a wait is said in the language of the page. */
async function letIn(path: string, body: object): Promise<Me> {
  try {
    return await ask<Me>(path, { method: 'POST', body });
  } catch (error) {
    throw error instanceof Refusal ? (inWords(error) ?? error) : error;
  }
}

function inWords({ status, code, message }: Refusal): Error | undefined {
  if (status === 401) return new Error(say('access.notIn'));
  const seconds = /(\d+) s\b/.exec(message)?.[1];
  return code === 'TOO_MANY_ATTEMPTS' && seconds ? new Error(say('access.waits', { seconds })) : undefined;
}

function useEnter(): (me: Me) => void {
  const { route } = useLocation();
  return (me) => {
    setMe(me);
    route('/beds', true);
  };
}

function ByPassword() {
  const [name, setName] = useState('');
  const [password, setPassword] = useState('');
  const [sent, setSent] = useState(false);
  const me = useMe();
  const enter = useEnter();
  const send = async (): Promise<void> => enter(await letIn('/api/sign-in', { name: name.trim(), password }));
  const sendLink = async (): Promise<void> => {
    await ask('/api/sign-in/send-link', { method: 'POST', body: { name: name.trim() } });
    setSent(true);
  };
  return (
    <>
      <Form
        onSend={send}
        send={say('access.enter')}
        beside={
          me?.sendsLinks ? (
            <Button kind="quiet" onPress={sendLink}>
              {say('access.sendLink')}
            </Button>
          ) : null
        }
      >
        {() => (
          <>
            <TextField label={say('access.name')} value={name} onChange={setName} autocomplete="username" />
            <TextField
              label={say('access.password')}
              value={password}
              onChange={setPassword}
              type="password"
              autocomplete="current-password"
            />
          </>
        )}
      </Form>
      <div role="status">{sent ? <Notice kind="plain">{say('access.linkSent')}</Notice> : null}</div>
    </>
  );
}

function ByLink({ secret, purpose: { purpose, name: whose } }: { secret: string; purpose: Purpose }) {
  const [name, setName] = useState('');
  const [password, setPassword] = useState('');
  const enter = useEnter();
  const isFirst = purpose === 'first-steward';
  const send = async (): Promise<void> =>
    enter(
      await letIn('/api/sign-in/link', {
        ...{ link: secret, ...(isFirst ? { name: name.trim() } : {}) },
        ...(purpose === 'sign-in' ? {} : { password }),
      }),
    );
  return (
    <>
      <Title>{isFirst ? say('access.firstTitle') : say('access.signIn')}</Title>
      {isFirst ? <p>{say('access.firstText')}</p> : <p>{whose}</p>}
      <Form onSend={send} send={say('access.enter')}>
        {(wrongs) => (
          <>
            {isFirst ? (
              <TextField
                label={say('access.name')}
                hint={say('access.nameHint')}
                value={name}
                onChange={setName}
                wrong={wrongs['name']}
                autocomplete="username"
              />
            ) : null}
            {purpose === 'sign-in' ? null : (
              <TextField
                label={say('access.chooseTitle')}
                hint={say('access.passwordHint')}
                value={password}
                onChange={setPassword}
                wrong={wrongs['password']}
                type="password"
                autocomplete="new-password"
              />
            )}
          </>
        )}
      </Form>
    </>
  );
}
