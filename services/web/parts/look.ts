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

/** Says to the style sheets how to look: what the device says is `light` or `dark` by then. */
export function showLook(look: Look = lookNow()): void {
  const ofDevice = darkDevice().matches ? 'dark' : 'light';
  document.documentElement.dataset['look'] = look === 'device' ? ofDevice : look;
}

/** Looks as chosen, and as the device says whenever it changes its mind. */
export function keepLook(): void {
  showLook();
  darkDevice().addEventListener('change', () => showLook());
}

const darkDevice = (): MediaQueryList => matchMedia('(prefers-color-scheme: dark)');
