/** What was lost, by cause, from the roots that were looked at. */
import type { Stock } from '../../api/types/stock.js';
import { Notice } from '../../parts/notice.js';
import { say } from '../../words/say.js';
import { shareInWords } from './bands.js';
import { causeWord } from './left.js';

export function Losses({ losses }: { losses: Stock['losses'] }) {
  return (
    <section>
      <h2>{say('stock.losses')}</h2>
      {losses.length === 0 ? (
        <p>{say('stock.noLosses')}</p>
      ) : (
        <>
          <p class="soft">{say('stock.lossesHint')}</p>
          <ul>
            {losses.map((loss) => (
              <li key={loss.cause}>
                <b>{causeWord(loss.cause)}</b>: {shareInWords(loss)}
              </li>
            ))}
          </ul>
        </>
      )}
      <Notice kind="caution">
        <p>{say('stock.caution')}</p>
      </Notice>
    </section>
  );
}
