/** Shows what an address gives: while it is asked for, as last seen, as it is now, or why not. */
import type { ComponentChildren } from 'preact';
import type { SeenAnswer } from '../api/seen.js';
import { ownName } from '../words/own-names.js';
import { say } from '../words/say.js';
import { ago } from '../words/times.js';
import { Button } from './button.js';
import { English, Notice } from './notice.js';

interface ShownParts<Answer> {
  readonly of: SeenAnswer<Answer>;
  readonly children: (answer: Answer) => ComponentChildren;
}

export function Shown<Answer>({ of, children }: ShownParts<Answer>) {
  const { answer, seenAt, seenIn, asking, refusal, away, again } = of;
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
