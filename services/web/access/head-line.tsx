/** Who is signed in, above every page; and that nobody has to. */
import { useLocation } from 'preact-iso';
import { Button } from '../parts/button.js';
import { say } from '../words/say.js';
import { signOut, useMe } from './me.js';
import { roleName } from './role-words.js';

export function HeadLine() {
  const me = useMe();
  const { route } = useLocation();
  if (me?.name == null || me.access !== 'sign-in') return null;
  const leave = async (): Promise<void> => {
    await signOut();
    route('/sign-in', true);
  };
  return (
    <p class="soft head-line">
      <span>
        {say('access.signedInAs', {
          name: me.shown ?? me.name,
          role: me.role === null ? '' : roleName(me.role),
        })}
      </span>
      <Button kind="quiet" onPress={leave}>
        {say('access.signOut')}
      </Button>
    </p>
  );
}
