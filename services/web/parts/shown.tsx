/** Shows what an address gives: while it is asked for, as last seen, as it is now, or why not. */
import type { ComponentChildren } from 'preact';
import type { SeenAnswer } from '../api/seen.js';
import { ownName } from '../words/own-names.js';
import { say } from '../words/say.js';
import { ago } from '../words/times.js';
import { Button } from './button.js';
import { isNotThere, NotThere, type Thing } from './not-there.js';
import { English, Notice } from './notice.js';

interface ShownParts<Answer> {
  readonly of: SeenAnswer<Answer>;
  /** What the page is about, where an address may name one that is not there. */
  readonly thing?: Thing;
  readonly children: (answer: Answer) => ComponentChildren;
}

export function Shown<Answer>({ of, thing, children }: ShownParts<Answer>) {
  const { answer, seenAt, seenIn, asking, refusal, away, again } = of;
  if (thing && isNotThere(refusal)) return <NotThere {...thing} />;
  return (
    <>
      {refusal ? (
        <Notice kind="refusal" title={say('parts.refusedTitle')}>
          <p>
            <English>{refusal.message}</English>
          </p>
        </Notice>
      ) : null}
      {answer === undefined && !asking ? (
        <>
          {away ? <p>{say('parts.notThere')}</p> : null}
          <div class="buttons">
            <Button kind="quiet" onPress={again}>
              {say('parts.tryAgain')}
            </Button>
          </div>
        </>
      ) : null}
      {answer === undefined && asking ? <p role="status">{say('parts.asking')}</p> : null}
      {answer !== undefined && away && seenAt !== undefined ? (
        <p class="soft">
          {seenIn === undefined
            ? say('parts.seenAgo', { ago: ago(seenAt) })
            : say('parts.seenAgoIn', { ago: ago(seenAt), language: ownName(seenIn) })}
        </p>
      ) : null}
      {answer === undefined ? null : children(answer)}
    </>
  );
}
