/** How the page looks on this device: as the device says, light, dark, or for reading in full sun. */
export const LOOKS = ['device', 'light', 'dark', 'sunlight'] as const;
export type Look = (typeof LOOKS)[number];

const KEPT = 'sandlarder.look';

const isLook = (text: string | null): text is Look => (LOOKS as readonly (string | null)[]).includes(text);

export function lookNow(): Look {
  const kept = localStorage.getItem(KEPT);
  return isLook(kept) ? kept : 'device';
}

export function chooseLook(look: Look): void {
  localStorage.setItem(KEPT, look);
  showLook(look);
}

export function showLook(look: Look = lookNow()): void {
  if (look === 'device') delete document.documentElement.dataset['look'];
  else document.documentElement.dataset['look'] = look;
}
