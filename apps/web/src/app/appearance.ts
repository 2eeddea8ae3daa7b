// Light, dark, or as the device is set: kept on this device. public/appearance.js reads it before anything is drawn, tokens.css follows it.
import { useState } from 'react';

export const APPEARANCES = { device: 'Light or dark by device', light: 'Always light', dark: 'Always dark' } as const;
export type Appearance = keyof typeof APPEARANCES;

const PLACE = 'appearance';

const kept = (): Appearance => {
  const { theme } = document.documentElement.dataset;
  return theme === 'light' || theme === 'dark' ? theme : 'device';
};

function keep(chosen: Appearance): void {
  if (chosen === 'device') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = chosen;
  try {
    if (chosen === 'device') localStorage.removeItem(PLACE);
    else localStorage.setItem(PLACE, chosen);
  } catch {
    // a browser that keeps nothing shows it until the next load
  }
}

/** What is chosen on this device, and how to choose. */
export function useAppearance(): [Appearance, (chosen: Appearance) => void] {
  const [chosen, setChosen] = useState(kept);
  return [
    chosen,
    (next) => {
      keep(next);
      setChosen(next);
    },
  ];
}
