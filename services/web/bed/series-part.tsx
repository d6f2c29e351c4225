/** The plots of a bed: fetched when a bed is first opened, with the library that draws their axes. */
import { useEffect, useState } from 'preact/hooks';
import type { Bed } from '../api/types/bed.js';
import { Button } from '../parts/button.js';
import { say } from '../words/say.js';
import type { Cursor } from './cursor.js';

type Part = typeof import('./series/series.js').default;

let fetched: Part | undefined;

export function SeriesPart({ bed, cursor }: { bed: Bed; cursor: Cursor }) {
  const [Series, setSeries] = useState<{ readonly part: Part } | undefined>(fetched && { part: fetched });
  const [failed, setFailed] = useState(false);
  const fetchIt = async (): Promise<void> => {
    setFailed(false);
    try {
      fetched = (await import('./series/series.js')).default;
      setSeries({ part: fetched });
    } catch {
      setFailed(true);
    }
  };
  useEffect(() => {
    if (!Series) void fetchIt();
  }, []);
  if (Series) return <Series.part bed={bed} cursor={cursor} />;
  if (!failed) return <p role="status">{say('app.opening')}</p>;
  return (
    <>
      <p>{say('bed.seriesMissing')}</p>
      <Button kind="quiet" onPress={fetchIt}>
        {say('parts.tryAgain')}
      </Button>
    </>
  );
}
