/** What the probes see, in words: the share found, the blind spots, and the place for one more probe. */
import type { BlindSpot, CoverageAnswer } from '../../api/types/coverage.js';
import { English, Notice } from '../../parts/notice.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { letterOf } from './coverage.js';
import { SightLegend } from './legend.js';

const percent = (share: number): string => number(100 * share);

/** @param deep_cm of the sand that the view from above shows */
export function Told({ answer, deep_cm }: { answer: CoverageAnswer; deep_cm: number }) {
  const { power_W, days, probes, shade, share, blindShare, blindSpots } = answer;
  return (
    <div class="told-coverage">
      <p>
        {say('bed.shareFound', {
          ...{ share: percent(share), blind: percent(blindShare), days, probes },
          power: number(power_W, power_W % 1 === 0 ? 0 : 1),
        })}
      </p>
      {shade ? null : <Notice kind="caution">{say('bed.noShade')}</Notice>}
      <SightLegend />
      <p class="soft">{say('bed.coverageAbout', { deep: number(deep_cm) })}</p>
      {blindSpots.length === 0 ? (
        <p>{say('bed.noBlindSpots')}</p>
      ) : (
        <>
          <h3>{say('bed.blindSpots')}</h3>
          <ul class="spots">
            {blindSpots.map((spot, index) => (
              <li key={letterOf(index)}>
                <Blind spot={spot} letter={letterOf(index)} />
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

export function NextTold({ next }: { next: CoverageAnswer['next'] }) {
  if (!next) return <Notice kind="done">{say('bed.nextNowhere')}</Notice>;
  const { x, y, depth, share, where } = next;
  return (
    <Notice kind="done" title={say('bed.nextProbe')}>
      <p>
        <English>{where}</English>
      </p>
      <p>
        {say('bed.nextTold', {
          ...{ along: number(x), across: number(y), deep: number(depth) },
          share: percent(share),
        })}
      </p>
    </Notice>
  );
}

function Blind({ spot, letter }: { spot: BlindSpot; letter: string }) {
  const { where, share, radius, foundAfter_days } = spot;
  return (
    <>
      <b>{letter}</b> <English>{where}</English>.{' '}
      {say('bed.blindTold', { share: percent(share), radius: number(radius) })}{' '}
      {foundAfter_days === null ? say('bed.foundNever') : say('bed.foundAfter', { days: foundAfter_days })}
    </>
  );
}
