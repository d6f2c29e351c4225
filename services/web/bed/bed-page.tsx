import { useMemo } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { useSeen } from '../api/seen.js';
import type { Bed } from '../api/types/bed.js';
import { Shown } from '../parts/shown.js';
import { Standing } from '../parts/standing.js';
import { Title } from '../parts/title.js';
import { createCursor } from './cursor.js';

export default function BedPage() {
  const { params } = useRoute();
  const id = params['bed'] ?? '';
  return <OneBed key={id} id={id} />;
}

function OneBed({ id }: { id: string }) {
  const cursor = useMemo(createCursor, [id]);
  const seen = useSeen<Bed>(`/api/beds/${encodeURIComponent(id)}`, {
    live: ['readings', 'alarms', 'beds', 'site', 'probes'],
    bed: id,
  });
  void cursor;
  return (
    <>
      <Title>{seen.answer?.name ?? id}</Title>
      <Shown of={seen}>
        {(bed) => (
          <>
            <p>
              <Standing stands={bed.stands} />
            </p>
            {/* The cut. */}
            {/* Here stand the series: <Series bed={bed} cursor={cursor} /> of ./series/. */}
            {/* The facts. */}
          </>
        )}
      </Shown>
    </>
  );
}
