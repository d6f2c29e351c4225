/** What is done here, for whoever may; for others a sentence that says who may. */
import type { ComponentChildren } from 'preact';
import { type Action, actionsOf, isAtNamedBeds, PERSON_ROLES } from '../../core/model/roles.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { mayDo } from './may.js';
import { useMe } from './me.js';
import { roleName } from './role-words.js';

interface OnlyParts {
  readonly action: Action;
  /** At which it is done; undefined where it is done at none. */
  readonly bed?: string | undefined;
  readonly children: ComponentChildren;
}

export function OnlyWhoMay({ action, bed, children }: OnlyParts) {
  return mayDo(useMe(), action, bed) ? <>{children}</> : <NotYours action={action} bed={bed} />;
}

/** In the place of a page that is there to do what whoever is here may not. */
export function NotYourPage({ action, bed }: Omit<OnlyParts, 'children'>) {
  return (
    <>
      <Title>{say('roles.notYoursTitle')}</Title>
      <NotYours action={action} bed={bed} />
      <p>
        <a href="/settings/access">{say('settings.access')}</a>
      </p>
    </>
  );
}

/** Who may, in a sentence. */
export function NotYours({ action, bed }: Omit<OnlyParts, 'children'>) {
  const me = useMe();
  const role = me?.role ?? null;
  const isOfBeds = bed !== undefined && role !== null && isAtNamedBeds(role, action);
  if (isOfBeds && me !== undefined && me.beds.length > 0)
    return <p class="not-yours">{say('roles.notYourBed', { beds: me.beds.join(', ') })}</p>;
  const who = PERSON_ROLES.filter((one) => actionsOf(one).includes(action))
    .map(roleName)
    .join(', ');
  return (
    <p class="not-yours">
      {role === null
        ? say('roles.notOffered', { who })
        : say('roles.notYours', { role: roleName(role), who })}
    </p>
  );
}
