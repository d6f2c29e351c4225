/** Who uses this device: written beside what is done with it. Taken on trust. */
import { useState } from 'preact/hooks';

const KEPT = 'sandlarder.person';

export const personNow = (): string => localStorage.getItem(KEPT) ?? '';

export function rememberPerson(name: string): void {
  localStorage.setItem(KEPT, name.trim());
}

/** The name, and what changes it for this form; it is remembered when the form is sent (`rememberPerson`). */
export function usePerson(): [name: string, change: (name: string) => void] {
  return useState(personNow());
}
