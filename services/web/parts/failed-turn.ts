/** What is wrong with a field holds until something else is typed into it, or the form is sent again. */
import { createContext } from 'preact';
import { useContext, useState } from 'preact/hooks';

/** How often the form around was not taken. */
export const FailedTurn = createContext(0);

/** @returns what is wrong as long as it holds, and what is called when something is typed */
export function useHolding(wrong: string | undefined): [wrong: string | undefined, typed: () => void] {
  const turn = useContext(FailedTurn);
  const [typedIn, setTypedIn] = useState<number>();
  return [typedIn === turn ? undefined : wrong, () => setTypedIn(turn)];
}
