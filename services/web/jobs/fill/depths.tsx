/** Whether each probe of a filling lies as deep as was said, by the days after it. */
import { useSeen } from '../../api/seen.js';
import type { BuriedDepth, Filling } from '../../api/types/filling.js';
import { depthWord } from '../../parts/depth-word.js';
import { English } from '../../parts/notice.js';
import { Shown } from '../../parts/shown.js';
import { useNow } from '../../parts/when.js';
import { say } from '../../words/say.js';
import { dayAndTime } from '../../words/times.js';

/** What the service judges by, ms: the first two days after the filling. */
const JUDGED_ms = 49 * 3_600_000;

/** A tick, an arrow up, an arrow down, a dash with a gap: known by their outline. In a square of 24. */
const SHAPES: Readonly<Record<BuriedDepth['verdict'], string>> = {
  'as planned': 'M4 13l5 5L20 6',
  shallower: 'M12 21V4M5 11l7-7 7 7',
  deeper: 'M12 3v17M5 13l7 7 7-7',
  'cannot tell': 'M4 12h5M15 12h5',
};

export function Depths({ bed, filling }: { bed: string; filling: Filling }) {
  const path = `/api/beds/${encodeURIComponent(bed)}/fillings/${filling.id}/probes`;
  const seen = useSeen<readonly BuriedDepth[]>(filling.buried.length > 0 ? path : undefined);
  const endsAt = Date.parse(filling.at) + JUDGED_ms;
  const isEarly = useNow() < endsAt;
  if (filling.buried.length === 0) return <p>{say('fill.noneBuried')}</p>;
  return (
    <>
      <h4>{say('fill.lieAsSaid')}</h4>
      {isEarly ? <p>{say('fill.early', { time: dayAndTime(endsAt) })}</p> : null}
      <Shown of={seen}>
        {(depths) => (
          <ul class="depths">
            {depths.map((depth) => (
              <Depth key={depth.probe} depth={depth} />
            ))}
          </ul>
        )}
      </Shown>
    </>
  );
}

function Depth({ depth: { probe, x, y, depth, verdict, text } }: { depth: BuriedDepth }) {
  return (
    <li data-verdict={verdict}>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path d={SHAPES[verdict]} fill="none" stroke="currentColor" stroke-width="3" />
      </svg>
      <div>
        <b>
          {probe}: {depthWord(verdict)}
        </b>
        <br />
        <span class="soft">{say('fill.liesAt', { x, y, depth })}</span>
        <br />
        <English>{text}</English>
      </div>
    </li>
  );
}
