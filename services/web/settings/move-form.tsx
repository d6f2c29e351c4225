/** Where a probe is taken to: a bed and a point of it, by a tap or typed; the shade; or out. */
import { useState } from 'preact/hooks';
import { askWhole } from '../api/client.js';
import type { Changed, DescribedProbe, Placement, SiteDescription } from '../api/types/site.js';
import { Button } from '../parts/button.js';
import { Choice, NumberField, SelectField } from '../parts/field.js';
import { expectAll, NotAsExpected, type Wrongs } from '../parts/form.js';
import { TimeField, timeNow, typedTime } from '../parts/time-field.js';
import { typedNumber } from '../parts/typed-number.js';
import type { WordKey } from '../words/catalogue.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';
import { zonedText } from '../words/zoned.js';
import { probesIn } from './bed-form.js';
import { BedViews } from './bed-views.js';
import { versionHeader } from './entry.js';
import { EntryForm } from './entry-form.js';
import { siteAddress } from './of-site.js';

type Where = 'bed' | 'shade' | 'out';

/** x, y and depth as they are typed, cm. */
interface TypedPoint {
  readonly x: string;
  readonly y: string;
  readonly depth: string;
}

interface MoveFormParts {
  readonly site: string;
  readonly id: string;
  /** Of the version that was read; undefined for a probe that nobody described. */
  readonly tag: string | undefined;
  readonly whole: SiteDescription;
  readonly last: Placement | undefined;
  /** When an unknown probe was first heard. */
  readonly firstAt?: string | undefined;
  readonly onReadAgain: () => void;
}

const textOf = (value: number | undefined): string => (value === undefined ? '' : String(value));

export function MoveForm({ site, id, tag: readTag, whole, last, firstAt, onReadAgain }: MoveFormParts) {
  const [tag, setTag] = useState(readTag);
  const stands = last !== undefined && last.to === undefined;
  const [where, setWhere] = useState<Where>(last?.ambient ? 'shade' : 'bed');
  const [bed, setBed] = useState(last?.bed ?? whole.beds[0]?.id ?? '');
  const [point, setPoint] = useState<TypedPoint>({
    ...{ x: textOf(last?.x), y: textOf(last?.y), depth: textOf(last?.depth) },
  });
  const [from, setFrom] = useState(timeNow());
  const made = (by: string): unknown => {
    const time = typedTime(from);
    if (where === 'shade') return { by, from: time, ambient: true };
    if (where === 'out') return { by, from: time, out: true };
    return { by, from: time, bed, ...cmOf(point) };
  };
  const check = (): void =>
    expectAll(
      () => {
        if (typedTime(from) === undefined) throw new NotAsExpected({ from: say('settings.timeWrong') });
      },
      () => where === 'bed' && cmOf(point),
    );
  return (
    <EntryForm<DescribedProbe>
      label={say('settings.place')}
      send={say(sendWord(where, tag))}
      sure={where === 'out' ? say('settings.outSure', { probe: id }) : undefined}
      check={check}
      onSend={async (by) => {
        const { answer } = await askWhole<Changed<DescribedProbe>>(
          `${siteAddress(site)}/probes/${encodeURIComponent(id)}/moves`,
          { method: 'POST', body: made(by), headers: versionHeader(tag) },
        );
        return answer;
      }}
      onSaved={({ version }) => setTag(`"${version}"`)}
      onReadAgain={onReadAgain}
    >
      {(wrongs) => (
        <>
          <h2>{say(stands ? 'settings.placeElsewhere' : 'settings.place')}</h2>
          <Choice
            label={say('settings.where')}
            value={where}
            onChange={(chosen) => setWhere(chosen as Where)}
            options={[
              { value: 'bed', label: say('settings.whereBed') },
              { value: 'shade', label: say('settings.whereShade') },
              ...(stands ? [{ value: 'out', label: say('settings.whereOut') }] : []),
            ]}
          />
          {where === 'bed' ? <InBed {...{ id, whole, bed, setBed, point, setPoint, wrongs }} /> : null}
          <Since {...{ from, setFrom, firstAt }} wrong={wrongs['from']} />
        </>
      )}
    </EntryForm>
  );
}

function sendWord(where: Where, tag: string | undefined): WordKey {
  if (where === 'out') return 'settings.outSend';
  return tag === undefined ? 'settings.adoptSend' : 'settings.placeSend';
}

function cmOf(typed: TypedPoint): Record<keyof TypedPoint, number> {
  const read = (['x', 'y', 'depth'] as const).map((key) => [key, typedNumber(typed[key])] as const);
  const wrong = read.filter(([, value]) => value === undefined || Number.isNaN(value));
  if (wrong.length > 0)
    throw new NotAsExpected(Object.fromEntries(wrong.map(([key]) => [key, say('settings.numberWrong')])));
  return Object.fromEntries(read) as Record<keyof TypedPoint, number>;
}

interface InBedParts {
  readonly id: string;
  readonly whole: SiteDescription;
  readonly bed: string;
  readonly setBed: (bed: string) => void;
  readonly point: TypedPoint;
  readonly setPoint: (point: TypedPoint) => void;
  readonly wrongs: Wrongs;
}

function InBed({ id, whole, bed, setBed, point, setPoint, wrongs }: InBedParts) {
  const steps = whole.beds.find((one) => one.id === bed)?.steps;
  if (!steps) return <p>{say('settings.noBedYet')}</p>;
  const here = {
    ...{ x: shownAt(point.x), y: shownAt(point.y), depth: shownAt(point.depth) },
  };
  return (
    <>
      <SelectField
        label={say('settings.whichBed')}
        value={bed}
        onChange={setBed}
        wrong={wrongs['bed']}
        options={whole.beds.map((one) => ({ value: one.id, label: one.name }))}
      />
      <div class="desk-pair">
        <BedViews
          steps={steps}
          here={here}
          others={probesIn(whole, bed).filter((other) => other.id !== id)}
          onTap={(tapped) =>
            setPoint({
              ...point,
              ...Object.fromEntries(Object.entries(tapped).map(([key, value]) => [key, String(value)])),
            })
          }
        />
        <div class="side-by-side">
          {(['x', 'y', 'depth'] as const).map((key) => (
            <NumberField
              key={key}
              label={say(`settings.point_${key}`)}
              value={point[key]}
              onChange={(text) => setPoint({ ...point, [key]: text })}
              wrong={wrongs[key] ?? wrongs[`probe/placements/${key}`]}
              unit="cm"
            />
          ))}
        </div>
      </div>
    </>
  );
}

function shownAt(text: string): number | undefined {
  const value = typedNumber(text);
  return value === undefined || Number.isNaN(value) ? undefined : value;
}

interface SinceParts {
  readonly from: string;
  readonly setFrom: (from: string) => void;
  readonly firstAt: string | undefined;
  readonly wrong: string | undefined;
}

/** Of an unknown probe one tap says that it lay there from its first reading on. */
function Since({ from, setFrom, firstAt, wrong }: SinceParts) {
  return (
    <>
      <TimeField label={say('settings.since')} value={from} onChange={setFrom} wrong={wrong} />
      {firstAt === undefined ? null : (
        <div class="buttons">
          <Button kind="quiet" onPress={() => setFrom(zonedText(Date.parse(firstAt)))}>
            {say('settings.sinceFirst', { since: dayAndTime(firstAt) })}
          </Button>
        </div>
      )}
    </>
  );
}
