/** What would come of a bench, before it is kept, and keeping it. */
import { useEffect, useState } from 'preact/hooks';
import { ask } from '../api/client.js';
import type { Bench, Fit } from '../api/types/bench.js';
import { TextField, Tick } from '../parts/field.js';
import { messageOf } from '../parts/form.js';
import { English, Notice } from '../parts/notice.js';
import { say } from '../words/say.js';
import { Finish } from './finish.js';
import { FitSummary } from './fit-summary.js';
import { ResidualPlot } from './residual-plot.js';

/** Points that are not to be fitted: reasons by `probe point`. */
type LeftOut = Readonly<Record<string, string>>;

export function Outcome({ bench, again }: { bench: Bench; again: () => void }) {
  const [leftOut, setLeftOut] = useState<LeftOut>({});
  const { fits, failed: fitsFailed } = useFits(bench, leftOut);
  const [failed, setFailed] = useState<string>();
  const finish = async (probes?: readonly string[]): Promise<void> => {
    setFailed(undefined);
    try {
      const body = { fit: fitBody(leftOut), ...(probes ? { probes } : {}) };
      await ask(`/api/bench/${bench.id}/finish`, { method: 'POST', body });
    } catch (error) {
      setFailed(messageOf(error));
    }
    again();
  };
  const isNone = fits.every(({ calibration }) => calibration === null);
  return (
    <section class="card">
      <h2>{say('bench.resultTitle')}</h2>
      <p class="soft">{say(isNone ? 'bench.resultNone' : 'bench.resultHint')}</p>
      {fits.map((fit) => (
        <OneFit key={fit.probe} bench={bench} fit={fit} leftOut={leftOut} onLeaveOut={setLeftOut} />
      ))}
      {(failed ?? fitsFailed) ? (
        <Notice kind="refusal" title={say('parts.refusedTitle')}>
          <p>{failed ?? fitsFailed}</p>
        </Notice>
      ) : null}
      <Finish fits={fits} onFinish={finish} />
    </section>
  );
}

const fitBody = (leftOut: LeftOut) => ({
  leaveOut: Object.entries(leftOut)
    .filter(([, reason]) => reason.trim() !== '')
    .map(([place, reason]) => {
      const [probe, point] = place.split(' ');
      return { probe, point: Number(point), reason };
    }),
});

/** Asked anew when something was taken or left out. */
function useFits(bench: Bench, leftOut: LeftOut): { fits: readonly Fit[]; failed: string | undefined } {
  const [fits, setFits] = useState<readonly Fit[]>([]);
  const [failed, setFailed] = useState<string>();
  const taken = bench.points.flatMap(({ number, captured }) =>
    captured.map(({ probe }) => `${number}${probe}`),
  );
  const body = JSON.stringify({ fit: fitBody(leftOut) });
  useEffect(() => {
    if (taken.length === 0) return undefined;
    const stop = new AbortController();
    ask<Fit[]>(`/api/bench/${bench.id}/fits`, {
      method: 'POST',
      body: JSON.parse(body),
      signal: stop.signal,
    }).then(
      (answer) => {
        setFits(answer);
        setFailed(undefined);
      },
      (error: unknown) => {
        if (!stop.signal.aborted) setFailed(messageOf(error));
      },
    );
    return () => stop.abort();
  }, [bench.id, taken.join(' '), bench.finishedProbes.join(' '), body]);
  return { fits: fits.filter(({ probe }) => !bench.finishedProbes.includes(probe)), failed };
}

interface OneParts {
  readonly bench: Bench;
  readonly fit: Fit;
  readonly leftOut: LeftOut;
  readonly onLeaveOut: (leftOut: LeftOut) => void;
}

function OneFit({ bench, fit: { probe, calibration, problem }, leftOut, onLeaveOut }: OneParts) {
  const numbers = bench.points
    .filter(({ captured }) => captured.some((one) => one.probe === probe))
    .map(({ number }) => number);
  const asked = numbers.filter((number) =>
    isDoubted(calibration, numbers.indexOf(number), leftOut, probe, number),
  );
  return (
    <div class="fit">
      <h3>{probe}</h3>
      {problem === null ? null : (
        <p>
          <English>{problem}</English>
        </p>
      )}
      {calibration ? (
        <>
          <FitSummary record={calibration} />
          <ResidualPlot record={calibration} />
        </>
      ) : null}
      {asked.map((number) => (
        <LeaveOut key={number} {...{ probe, number, leftOut, onLeaveOut }} />
      ))}
    </div>
  );
}

function isDoubted(
  calibration: Fit['calibration'],
  index: number,
  leftOut: LeftOut,
  probe: string,
  number: number,
): boolean {
  return (
    `${probe} ${number}` in leftOut || (calibration?.fit.outliers.some((one) => one.index === index) ?? false)
  );
}

interface LeaveOutParts {
  readonly probe: string;
  readonly number: number;
  readonly leftOut: LeftOut;
  readonly onLeaveOut: (leftOut: LeftOut) => void;
}

function LeaveOut({ probe, number, leftOut, onLeaveOut }: LeaveOutParts) {
  const place = `${probe} ${number}`;
  const reason = leftOut[place];
  const without = Object.fromEntries(Object.entries(leftOut).filter(([key]) => key !== place));
  return (
    <>
      <p>{say('bench.outlier', { number })}</p>
      <Tick
        label={say('bench.leaveOut', { number, probe })}
        checked={reason !== undefined}
        onChange={(checked) => onLeaveOut(checked ? { ...without, [place]: '' } : without)}
      />
      {reason === undefined ? null : (
        <TextField
          label={say('bench.leaveOutReason', { number })}
          value={reason}
          onChange={(text) => onLeaveOut({ ...without, [place]: text })}
          required
        />
      )}
    </>
  );
}
