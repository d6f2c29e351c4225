/** What the probes see: asked for, told in words, and where one more would help most. */
import { useState } from 'preact/hooks';
import { type SeenAnswer, useSeen } from '../../api/seen.js';
import type { BlindSpot, CoverageAnswer } from '../../api/types/coverage.js';
import { Button } from '../../parts/button.js';
import { NumberField, Tick } from '../../parts/field.js';
import { Form, NotAsExpected, type Wrongs } from '../../parts/form.js';
import { English, Notice } from '../../parts/notice.js';
import { Shown } from '../../parts/shown.js';
import { typedNumber } from '../../parts/typed-number.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { SightLegend } from './legend.js';
import type { Round } from './marks.js';

/** What is asked where nothing is said, and its bounds: those of `GET /api/beds/{bed}/coverage`. */
const USUAL = { power_W: 2, days: 7 } as const;
const BOUNDS = { power_W: [0.5, 8], days: [1, 21] } as const;

export interface Asked {
  readonly power_W: number;
  readonly days: number;
  readonly next: boolean;
}

export interface CoverageShown {
  /** Undefined while it is not turned on. */
  readonly asked: Asked | undefined;
  readonly seen: SeenAnswer<CoverageAnswer>;
  ask(asked: Asked | undefined): void;
}

export function useCoverage(bed: string): CoverageShown {
  const [asked, ask] = useState<Asked>();
  const query = asked && `power=${asked.power_W}&days=${asked.days}${asked.next ? '&next=true' : ''}`;
  const seen = useSeen<CoverageAnswer>(query && `/api/beds/${encodeURIComponent(bed)}/coverage?${query}`, {
    live: ['probes', 'site'],
    bed,
  });
  return { asked, seen, ask };
}

export const letterOf = (index: number): string => String.fromCharCode(65 + index);

/** Blind spots and the place for one more probe, for the drawings. */
export function coverageRounds({ asked, seen: { answer } }: CoverageShown): Round[] {
  if (!asked || !answer) return [];
  const spots = answer.blindSpots.map((spot, index): Round => {
    const letter = letterOf(index);
    const key = `blind-${letter}`;
    return { ...spot, key, kind: 'blind', name: letter };
  });
  if (!answer.next) return spots;
  return [...spots, { ...answer.next, key: 'next', radius: 0, kind: 'next', name: say('bed.nextProbe') }];
}

export function CoveragePanel({ shown }: { shown: CoverageShown }) {
  const { asked, seen, ask } = shown;
  return (
    <div class="coverage">
      <Tick
        label={say('bed.coverage')}
        checked={asked !== undefined}
        onChange={(on) => ask(on ? { ...USUAL, next: false } : undefined)}
      />
      {asked ? (
        <>
          <CoverageForm onAsk={(question) => ask({ ...question, next: false })} />
          {seen.answer === undefined && seen.asking ? <Working next={asked.next} /> : null}
          {seen.answer === undefined && seen.asking ? null : (
            <Shown of={seen}>{(answer) => <Told answer={answer} />}</Shown>
          )}
          {asked.next || seen.answer === undefined ? null : (
            <Button kind="quiet" onPress={() => ask({ ...asked, next: true })}>
              {say('bed.askNext')}
            </Button>
          )}
        </>
      ) : null}
    </div>
  );
}

function Working({ next }: { next: boolean }) {
  return (
    <div role="status">
      <p>{say(next ? 'bed.workingNext' : 'bed.workingCoverage')}</p>
      <progress aria-label={say('bed.workingBar')} />
    </div>
  );
}

function CoverageForm({ onAsk }: { onAsk: (asked: Omit<Asked, 'next'>) => void }) {
  const [power, setPower] = useState(String(USUAL.power_W));
  const [days, setDays] = useState(String(USUAL.days));
  const send = async (): Promise<void> => {
    const [power_W, count] = [typedNumber(power), typedNumber(days)];
    const wrongs: Wrongs = {
      ...wrongOf('power_W', power_W, Number.isFinite(power_W)),
      ...wrongOf('days', count, Number.isInteger(count)),
    };
    if (Object.keys(wrongs).length > 0) throw new NotAsExpected(wrongs);
    onAsk({ power_W: power_W as number, days: count as number });
  };
  return (
    <Form label={say('bed.coverageForm')} send={say('bed.coverageSend')} onSend={send}>
      {(wrongs) => (
        <div class="beside">
          <NumberField
            label={say('bed.power')}
            hint={say('bed.powerHint')}
            unit="W"
            value={power}
            onChange={setPower}
            wrong={wrongs['power_W']}
          />
          <NumberField
            label={say('bed.days')}
            hint={say('bed.daysHint')}
            whole
            value={days}
            onChange={setDays}
            wrong={wrongs['days']}
          />
        </div>
      )}
    </Form>
  );
}

function wrongOf(name: keyof typeof BOUNDS, value: number | undefined, isNumber: boolean): Wrongs {
  const [low, high] = BOUNDS[name];
  if (isNumber && (value as number) >= low && (value as number) <= high) return {};
  const words = { low: number(low, low % 1 === 0 ? 0 : 1), high: number(high) };
  return { [name]: say(name === 'days' ? 'bed.daysWrong' : 'bed.powerWrong', words) };
}

const percent = (share: number): string => number(100 * share);

function Told({ answer }: { answer: CoverageAnswer }) {
  const { power_W, days, probes, shade, share, blindShare, blindSpots, next } = answer;
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
      <p class="soft">{say('bed.coverageAbout')}</p>
      {next === undefined ? null : <NextTold next={next} />}
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

function NextTold({ next }: { next: CoverageAnswer['next'] }) {
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
