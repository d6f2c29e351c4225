/** What the probes see: asked for, told in words, and where one more would help most. */
import { useState } from 'preact/hooks';
import type { SeenAnswer } from '../../api/seen.js';
import type { CoverageAnswer } from '../../api/types/coverage.js';
import { Button } from '../../parts/button.js';
import { NumberField, Tick } from '../../parts/field.js';
import { Form, NotAsExpected, type Wrongs } from '../../parts/form.js';
import { Shown } from '../../parts/shown.js';
import { typedNumber } from '../../parts/typed-number.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import type { Asked, CoverageShown } from './coverage.js';
import { NextTold, Told } from './coverage-told.js';

/** What is asked where nothing is said, and its bounds: those of `GET /api/beds/{bed}/coverage`. */
const USUAL = { power_W: 2, days: 7 } as const;
const BOUNDS = { power_W: [0.5, 8], days: [1, 21] } as const;

export function CoveragePanel({ shown, deep_cm }: { shown: CoverageShown; deep_cm: number }) {
  const { isOpen, open, asked, ask } = shown;
  return (
    <div class="coverage">
      <Tick label={say('bed.coverage')} checked={isOpen} onChange={open} />
      {isOpen ? <CoverageForm onAsk={(question) => ask({ ...question, next: false })} /> : null}
      {asked ? <Answered asked={asked} shown={shown} deep_cm={deep_cm} /> : null}
    </div>
  );
}

interface AnsweredParts {
  readonly asked: Asked;
  readonly shown: CoverageShown;
  readonly deep_cm: number;
}

function Answered({ asked, shown: { seen, seenNext, ask }, deep_cm }: AnsweredParts) {
  return (
    <>
      {seen.answer === undefined && seen.asking ? (
        <Working words={say('bed.workingCoverage')} />
      ) : (
        <Shown of={seen}>{(answer) => <Told answer={answer} deep_cm={deep_cm} />}</Shown>
      )}
      {asked.next ? <Next seen={seenNext} /> : null}
      {asked.next || seen.answer === undefined ? null : (
        <Button kind="quiet" onPress={() => ask({ ...asked, next: true })}>
          {say('bed.askNext')}
        </Button>
      )}
    </>
  );
}

function Next({ seen }: { seen: SeenAnswer<CoverageAnswer> }) {
  if (seen.answer === undefined && seen.asking) return <Working words={say('bed.workingNext')} />;
  return <Shown of={seen}>{({ next }) => <NextTold next={next} />}</Shown>;
}

function Working({ words }: { words: string }) {
  return (
    <div role="status">
      <p>{words}</p>
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
