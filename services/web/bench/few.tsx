/** The first rows of a long list, and what shows the others: a bench may have forty probes, and a phone has room for few. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { Button } from '../parts/button.js';
import { say } from '../words/say.js';

/** About a screen of a phone. */
const FEW = 8;

/** @returns the rows to show, and a button for the rest where there is one */
export function useFew<Row>(rows: readonly Row[]): [shown: readonly Row[], more: ComponentChildren] {
  const [isAll, showAll] = useState(false);
  if (isAll || rows.length <= FEW) return [rows, null];
  const button = (
    <Button kind="quiet" onPress={() => showAll(true)}>
      {say('bench.showAll', { count: rows.length })}
    </Button>
  );
  return [rows.slice(0, FEW), button];
}
