import { useState } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { useSeen } from '../../api/seen.js';
import type { Taken } from '../../api/send-or-keep.js';
import type { BedToFill, Filled, Filling, KnownProbe } from '../../api/types/filling.js';
import { Button } from '../../parts/button.js';
import { useKept } from '../../parts/kept.js';
import { Notice } from '../../parts/notice.js';
import { Shown } from '../../parts/shown.js';
import { useSite } from '../../parts/site.js';
import { Title } from '../../parts/title.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import { WaitingHere } from '../waiting-here.js';
import { draftAgain, draftOf, type FillDraft, newDraft, type SentFilling } from './draft.js';
import './fill.css';
import { FillForm } from './fill-form.js';
import { ReadyLine } from './ready-line.js';
import { FillTaken } from './taken.js';
import { Written } from './written.js';

/** What went into a bed and where its probes lie, and later whether they lie as said. */
export default function FillPage() {
  const id = useRoute().params['bed'] ?? '';
  const path = `/api/beds/${encodeURIComponent(id)}`;
  const bed = useSeen<BedToFill>(path, { live: ['beds', 'site', 'probes'], bed: id });
  const { names, settled } = useSite(bed.answer?.site);
  const fillings = useSeen<readonly Filling[]>(`${path}/fillings`, { live: ['beds'], bed: id });
  return (
    <>
      <Title>{say('fill.title', { bed: bed.answer?.name ?? id })}</Title>
      <Shown of={bed} thing={{ kind: 'bed', id }}>
        {(known) =>
          settled ? (
            <Shown of={fillings}>
              {(written) => (
                <FillingOf
                  key={id}
                  {...{ names, path: `${path}/fillings` }}
                  bed={known}
                  fillings={written}
                  again={() => {
                    bed.again();
                    fillings.again();
                  }}
                />
              )}
            </Shown>
          ) : (
            <p role="status">{say('parts.asking')}</p>
          )
        }
      </Shown>
    </>
  );
}

interface FillingParts {
  readonly bed: BedToFill;
  /** People of the site. */
  readonly names: readonly string[];
  /** Where fillings are sent to. */
  readonly path: string;
  readonly fillings: readonly Filling[];
  readonly again: () => void;
}

function FillingOf({ bed, names, path, fillings, again }: FillingParts) {
  const [kept, keep] = useKept<FillDraft | null>(`fill.${bed.id}`, null);
  const [taken, setTaken] = useState<Taken<Filled>>();
  const probes = useBuriable(bed);
  const isFirst = bed.filled === null && taken === undefined;
  const draft = kept ?? (isFirst ? newDraft() : undefined);
  const finish = (outcome: Taken<Filled>): void => {
    keep(undefined);
    setTaken(outcome);
    again();
  };
  return (
    <>
      {bed.filled === null || bed.rootsLeft === 0 || taken !== undefined ? null : (
        <FullSince filled={bed.filled} />
      )}
      <WaitingHere path={path} onSent={again} onMend={({ body }) => keep(draftAgain(body as SentFilling))} />
      {taken === undefined ? null : <FillTaken bed={bed.id} taken={taken} />}
      {draft === undefined ? (
        <Begin
          bed={bed}
          isWritten={fillings.length > 0}
          onBegin={() => keep(newDraft(fillings.length > 0 ? undefined : (bed.filled ?? undefined)))}
        />
      ) : (
        <>
          {draft.supersedes === undefined ? <ReadyLine bed={bed.id} /> : null}
          <section>
            <h2>{say(draft.supersedes === undefined ? 'fill.form' : 'fill.mending')}</h2>
            <FillForm {...{ bed, probes, names, fillings, draft }} onChange={keep} onTaken={finish} />
            {isFirst && kept === null ? null : (
              <Button kind="quiet" onPress={() => keep(undefined)}>
                {say('fill.leave')}
              </Button>
            )}
          </section>
        </>
      )}
      <Written bed={bed.id} fillings={fillings} onMend={(filling) => keep(draftOf(filling))} />
    </>
  );
}

function FullSince({ filled }: { filled: string }) {
  return (
    <Notice kind="caution" title={say('fill.fullSince', { day: dayOf(filled) })}>
      <p>{say('fill.fullToFill')}</p>
    </Notice>
  );
}

/** A bed that is filled already: another filling is written down only when asked for. */
function Begin({ bed, isWritten, onBegin }: { bed: BedToFill; isWritten: boolean; onBegin: () => void }) {
  return (
    <section>
      {bed.filled === null || isWritten ? null : (
        <p>{say('fill.onlyDescribed', { day: dayOf(bed.filled) })}</p>
      )}
      <div class="buttons">
        <Button kind="quiet" onPress={onBegin}>
          {say(isWritten || bed.filled === null ? 'fill.another' : 'fill.writeDown')}
        </Button>
      </div>
    </section>
  );
}

/** The bed's own probes, and those of the site that stand nowhere. */
function useBuriable({ site, probes }: BedToFill): string[] {
  const known = useSeen<readonly KnownProbe[]>(`/api/probes?site=${encodeURIComponent(site)}`, {
    live: ['probes', 'site'],
  });
  const spare = (known.answer ?? []).filter((probe) => probe.stands === null).map(({ id }) => id);
  const own = probes.map(({ id }) => id);
  return [...own, ...spare.filter((id) => !own.includes(id))];
}
