import { useState } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { NoNetwork } from '../../api/client.js';
import { askAndKeep, useSeen } from '../../api/seen.js';
import type { Stock } from '../../api/types/stock.js';
import { Shown } from '../../parts/shown.js';
import { useSite } from '../../parts/site.js';
import { Title } from '../../parts/title.js';
import { say } from '../../words/say.js';
import { keptFoodQuery } from './food.js';
import './stock.css';
import { StockShown } from './stock-shown.js';

/** What is left of a bed, where the rest went, and how long it feeds. */
export default function StockPage() {
  const id = useRoute().params['bed'] ?? '';
  const { answer, asking } = useSeen<{ readonly name: string; readonly site: string }>(
    `/api/beds/${encodeURIComponent(id)}`,
  );
  const { names, settled } = useSite(answer?.site);
  const name = answer?.name ?? id;
  return (
    <>
      <Title>{say('stock.title', { bed: name })}</Title>
      {settled || (answer === undefined && !asking) ? (
        <StockOf key={id} bed={id} {...{ name, names }} />
      ) : (
        <p role="status">{say('parts.asking')}</p>
      )}
    </>
  );
}

function StockOf({ bed, name, names }: { bed: string; name: string; names: readonly string[] }) {
  const path = `/api/beds/${encodeURIComponent(bed)}/stock`;
  const [query, setQuery] = useState(keptFoodQuery);
  const plain = useSeen<Stock>(path, { live: ['beds'], bed });
  const asked = useSeen<Stock>(query === '' ? undefined : path + query, { live: ['beds'], bed });
  const again = (): void => {
    plain.again();
    asked.again();
  };
  return (
    <Shown of={plain} thing={{ kind: 'bed', id: bed }}>
      {(stock) => (
        <StockShown
          {...{ bed, name, names, path, stock, again }}
          food={asked.answer ?? stock}
          onAsk={(next) => ask(path, next).then(() => setQuery(next))}
        />
      )}
    </Shown>
  );
}

/** What is refused stands in the form that asked; without a network what was last seen is shown. */
async function ask(path: string, query: string): Promise<void> {
  try {
    await askAndKeep(path + query);
  } catch (error) {
    if (!(error instanceof NoNetwork)) throw error;
  }
}
