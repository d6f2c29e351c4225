/** Who may sign in, where they are signed in, machines, one's own password, and what was changed. */
import { useMe } from '../access/me.js';
import { Notice } from '../parts/notice.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { Back } from './back.js';
import { Accounts } from './sign-ins/accounts.js';
import { Machines } from './sign-ins/machines.js';
import { Password } from './sign-ins/password.js';
import { Sessions } from './sign-ins/sessions.js';
import { Trail } from './sign-ins/trail.js';
import './settings.css';

export default function SignInsPage() {
  const me = useMe();
  const may = me?.may ?? [];
  return (
    <>
      <Back />
      <Title>{say('access.signIns')}</Title>
      {me?.access === 'open' ? <Notice kind="caution">{say('access.openNote')}</Notice> : null}
      {may.includes('administer') ? <Accounts /> : null}
      {may.includes('own') ? <Sessions all={may.includes('administer')} /> : null}
      {may.includes('administer') ? <Machines /> : null}
      {may.includes('own') ? <Password /> : null}
      {may.includes('audit') ? <Trail /> : null}
    </>
  );
}
