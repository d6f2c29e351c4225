/** One who may sign in: their role, another one, a link, and an end. */
import { useState } from 'preact/hooks';
import { PERSON_ROLES } from '../../../core/model/roles.js';
import { roleName } from '../../access/role-words.js';
import { ask } from '../../api/client.js';
import type { Account } from '../../api/types/access.js';
import { Button } from '../../parts/button.js';
import { Form, messageOf } from '../../parts/form.js';
import { Notice } from '../../parts/notice.js';
import { Question } from '../../parts/question.js';
import { say } from '../../words/say.js';
import { asGiven, type GivenRole, RoleFields, useBeds } from './role-fields.js';

interface LineParts {
  readonly account: Account;
  readonly linkFor: (name: string) => Promise<void>;
  readonly again: () => void;
}

export function AccountLine({ account, linkFor, again }: LineParts) {
  const { name, shown, role, beds } = account;
  const [asked, setAsked] = useState<'role' | 'end'>();
  const [failed, setFailed] = useState<string>();
  const known = useBeds();
  const bedNames = beds.map((id) => known.find((bed) => bed.id === id)?.name ?? id);
  const end = async (): Promise<void> => {
    try {
      await put(account, { closed: true });
      setFailed(undefined);
    } catch (error) {
      setFailed(messageOf(error));
    }
    setAsked(undefined);
    again();
  };
  return (
    <li>
      <p>
        <b>{shown}</b>
        {shown === name ? '' : ` (${name})`}: {roleName(role)}
        {bedNames.length === 0 ? '' : `, ${bedNames.join(', ')}`}
      </p>
      {failed === undefined ? null : (
        <Notice kind="refusal">
          <p>{failed}</p>
        </Notice>
      )}
      {asked === undefined ? <Deeds {...{ name, linkFor, setAsked }} /> : null}
      {asked === 'role' ? (
        <ChangeRole
          account={account}
          onDone={() => {
            setAsked(undefined);
            again();
          }}
          onLeave={() => setAsked(undefined)}
        />
      ) : null}
      {asked === 'end' ? (
        <Question
          text={say('access.noMoreSure', { name })}
          yes={say('access.noMore', { name })}
          no={say('parts.leaveIt')}
          onYes={end}
          onNo={() => setAsked(undefined)}
        />
      ) : null}
    </li>
  );
}

/** @throws Refusal, NoNetwork */
function put({ name, shown, role, beds, person }: Account, change: object): Promise<unknown> {
  const body = { shown, role, beds, person, ...change };
  return ask(`/api/accounts/${encodeURIComponent(name)}`, { method: 'PUT', body });
}

interface DeedsParts extends Pick<LineParts, 'linkFor'> {
  readonly name: string;
  readonly setAsked: (asked: 'role' | 'end') => void;
}

function Deeds({ name, linkFor, setAsked }: DeedsParts) {
  const called = (what: string): string => `${what}: ${name}`;
  return (
    <div class="buttons">
      <Button kind="quiet" label={called(say('access.otherRole'))} onPress={() => setAsked('role')}>
        {say('access.otherRole')}
      </Button>
      <Button kind="quiet" label={called(say('access.makeLink'))} onPress={() => linkFor(name)}>
        {say('access.makeLink')}
      </Button>
      <Button kind="quiet" onPress={() => setAsked('end')}>
        {say('access.noMore', { name })}
      </Button>
    </div>
  );
}

interface ChangeParts {
  readonly account: Account;
  readonly onDone: () => void;
  readonly onLeave: () => void;
}

function ChangeRole({ account, onDone, onLeave }: ChangeParts) {
  const [given, setGiven] = useState<GivenRole>({ role: account.role, beds: account.beds });
  const send = async (): Promise<void> => {
    await put(account, asGiven(given));
    onDone();
  };
  return (
    <Form
      label={`${say('access.otherRole')}: ${account.name}`}
      onSend={send}
      send={say('access.giveRole')}
      beside={
        <Button kind="quiet" onPress={onLeave}>
          {say('parts.leaveIt')}
        </Button>
      }
    >
      {(wrongs) => <RoleFields given={given} onChange={setGiven} roles={PERSON_ROLES} wrongs={wrongs} />}
    </Form>
  );
}
