/** Keeps what came of a bench; asks first where a probe has one point only. */
import { useState } from 'preact/hooks';
import type { Calibration, Fit } from '../api/types/bench.js';
import { Button } from '../parts/button.js';
import { Question } from '../parts/question.js';
import { say } from '../words/say.js';

interface FinishParts {
  readonly fits: readonly Fit[];
  /** All of the bench, or some of its probes. */
  readonly onFinish: (probes?: readonly string[]) => Promise<void>;
}

/** What is to be kept, and which of it rests on one point. */
interface Asked {
  readonly probes: readonly string[] | undefined;
  readonly onOne: readonly string[];
}

const restsOnOne = ({ points, fit }: Calibration): boolean => points.length - fit.leftOut.length === 1;

export function Finish({ fits, onFinish }: FinishParts) {
  const [asked, setAsked] = useState<Asked>();
  const able = fits.flatMap(({ probe, calibration }) => (calibration ? [{ probe, calibration }] : []));
  const press = (probes?: readonly string[]): unknown => {
    const meant = able.filter(({ probe }) => probes === undefined || probes.includes(probe));
    const onOne = meant.filter(({ calibration }) => restsOnOne(calibration)).map(({ probe }) => probe);
    return onOne.length === 0 ? onFinish(probes) : setAsked({ probes, onOne });
  };
  if (able.length === 0) return null;
  if (asked)
    return (
      <Question
        text={say('bench.onePoint', { probes: asked.onOne.join(', ') })}
        yes={say('bench.onePointKeep')}
        no={say('bench.onePointMore')}
        onYes={() => onFinish(asked.probes).finally(() => setAsked(undefined))}
        onNo={() => setAsked(undefined)}
      />
    );
  return (
    <div class="buttons">
      <Button onPress={() => press()}>{say('bench.finish')}</Button>
      {fits.length > 1
        ? able.map(({ probe }) => (
            <Button key={probe} kind="quiet" onPress={() => press([probe])}>
              {say('bench.finishOne', { probe })}
            </Button>
          ))
        : null}
    </div>
  );
}
