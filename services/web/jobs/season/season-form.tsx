/** Which beds, and until when: an earlier season is that which ran at its end. */
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { useSeen } from '../../api/seen.js';
import type { Filling } from '../../api/types/filling.js';
import { Group, TextField, Tick } from '../../parts/field.js';
import { Form } from '../../parts/form.js';
import { Typed } from '../../parts/typed.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import { zonedText } from '../../words/zoned.js';

export interface BedNamed {
  readonly id: string;
  readonly name: string;
}

interface SeasonFormParts {
  readonly beds: readonly BedNamed[];
  readonly asked: readonly string[];
  /** ISO 8601. */
  readonly to: string | undefined;
}

export function SeasonForm({ beds, asked, to }: SeasonFormParts) {
  const { route } = useLocation();
  const [chosen, choose] = useState(asked);
  const [end, setEnd] = useState(to === undefined ? '' : endText(to));
  const send = (): Promise<void> => {
    const typed = new Typed();
    if (chosen.length === 0) typed.wrong('beds', say('season.chooseOne'));
    const until = end === '' ? '' : typed.time('to', end);
    typed.done();
    route(seasonAddress(chosen, until));
    return Promise.resolve();
  };
  return (
    <Form label={say('season.form')} send={say('season.show')} onSend={async () => send()}>
      {(wrongs) => (
        <>
          <Group label={say('season.beds')} hint={say('season.bedsHint')} wrong={wrongs['beds']}>
            {beds.map(({ id, name }) => (
              <Tick
                key={id}
                label={name}
                checked={chosen.includes(id)}
                onChange={(isIn) =>
                  choose(
                    beds.map((bed) => bed.id).filter((bed) => (bed === id ? isIn : chosen.includes(bed))),
                  )
                }
              />
            ))}
          </Group>
          <TextField
            label={say('season.to')}
            hint={say('season.toHint')}
            type="datetime-local"
            value={end}
            onChange={setEnd}
            wrong={wrongs['to']}
          />
          {chosen.length === 1 && chosen[0] ? <Earlier bed={chosen[0]} onChoose={setEnd} /> : null}
        </>
      )}
    </Form>
  );
}

const endText = (to: string): string => (Number.isFinite(Date.parse(to)) ? zonedText(Date.parse(to)) : '');

function seasonAddress(beds: readonly string[], to: string): string {
  return `/jobs/season?${new URLSearchParams({ beds: beds.join(','), ...(to === '' ? {} : { to }) })}`;
}

const MINUTE_ms = 60_000;

/** Seasons of a bed that ended with the next filling. */
function Earlier({ bed, onChoose }: { bed: string; onChoose: (end: string) => void }) {
  const seen = useSeen<readonly Filling[]>(`/api/beds/${encodeURIComponent(bed)}/fillings`);
  const fillings = (seen.answer ?? []).filter(({ inForce }) => inForce);
  const ended = fillings.slice(1).map((filling, index) => ({
    filling,
    // Fillings come newest first: the one before in the list ended it.
    endedAt: Date.parse(fillings[index]?.at ?? filling.at) - MINUTE_ms,
  }));
  if (ended.length === 0) return null;
  return (
    <div class="buttons">
      {ended.map(({ filling, endedAt }) => (
        <button
          type="button"
          class="button"
          data-kind="quiet"
          key={filling.id}
          onClick={() => onChoose(zonedText(endedAt))}
        >
          {say('season.earlier', { from: dayOf(filling.at), to: dayOf(endedAt) })}
        </button>
      ))}
    </div>
  );
}
