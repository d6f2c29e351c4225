/** All that was written down of a bed's stock, the newest first. */
import { useState } from 'preact/hooks';
import { useMay } from '../../access/may.js';
import type { Taken } from '../../api/send-or-keep.js';
import type { StockEntry, Stocked } from '../../api/types/stock.js';
import { Button } from '../../parts/button.js';
import { When } from '../../parts/when.js';
import { kilograms } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { reasonWord } from './left.js';
import { TakeBack } from './take-back.js';

/** So many are shown at first. */
const SHOWN = 20;

interface EntriesParts {
  readonly bed: string;
  readonly name: string;
  /** People of the site. */
  readonly names: readonly string[];
  readonly entries: readonly StockEntry[];
  readonly onTaken: (taken: Taken<Stocked>) => void;
}

export function Entries({ bed, name, names, entries, onTaken }: EntriesParts) {
  const [shown, show] = useState(SHOWN);
  const newest = [...entries].sort((one, other) => Date.parse(other.at) - Date.parse(one.at));
  return (
    <>
      {entries.length === 0 ? <p>{say('stock.noEntries')}</p> : null}
      <ol class="ledger">
        {newest.slice(0, shown).map((entry) => (
          <Entry key={entry.id} {...{ bed, name, names, entry, entries, onTaken }} />
        ))}
      </ol>
      {newest.length > shown ? (
        <Button kind="quiet" onPress={() => show(shown + 5 * SHOWN)}>
          {say('parts.more')}
        </Button>
      ) : null}
    </>
  );
}

function Entry({ bed, name, names, entry, entries, onTaken }: EntriesParts & { entry: StockEntry }) {
  const [isOpen, open] = useState(false);
  const mayTakeBack = useMay('write-down', bed);
  const { kind, at, by, origin, of } = entry;
  const back = entries.reduce((sum, other) => (other.of === entry.id ? sum + other.roots : sum), 0);
  const rest = entry.roots - back;
  const taken = entries.find(({ id }) => id === of);
  return (
    <li data-kind={kind}>
      <p>
        <b>{inWords(entry)}</b>
      </p>
      <p class="soft">
        <When at={at} /> · {by}
        {origin === null ? null : <> · {say('stock.follows')}</>}
      </p>
      {taken === undefined ? null : (
        <p>{say('stock.takesBack', { what: inWords(taken), why: entry.reason })}</p>
      )}
      {back > 0 ? <p>{say('stock.wasTakenBack', { back, roots: entry.roots })}</p> : null}
      {!mayTakeBack || kind === 'counter' || rest === 0 || isOpen ? null : (
        <Button
          kind="quiet"
          label={say('stock.takeBackOf', { what: inWords(entry) })}
          onPress={() => open(true)}
        >
          {say('stock.takeBack')}
        </Button>
      )}
      {isOpen ? (
        <TakeBack
          {...{ bed, name, names, entry, rest }}
          onLeave={() => open(false)}
          onTaken={(outcome) => {
            open(false);
            onTaken(outcome);
          }}
        />
      ) : null}
    </li>
  );
}

function inWords({ kind, roots, mass_kg, reason }: StockEntry): string {
  const values = {
    ...{ roots, reason: reasonWord(reason) },
    mass: mass_kg === undefined ? '' : kilograms(mass_kg, 1),
  };
  if (kind === 'counter') return say('stock.entryBack', values);
  if (kind === 'in') return say(mass_kg === undefined ? 'stock.entryIn' : 'stock.entryInWeighed', values);
  return say(mass_kg === undefined ? 'stock.entryOut' : 'stock.entryOutWeighed', values);
}
