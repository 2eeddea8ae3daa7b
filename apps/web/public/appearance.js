// Runs before anything is drawn: light or dark, where this device has a choice of its own (src/app/appearance.ts); else as the device is set.
try {
  const chosen = localStorage.getItem('appearance');
  if (chosen === 'light' || chosen === 'dark') {
    document.documentElement.dataset.theme = chosen;
    document.querySelector('meta[name=color-scheme]').content = chosen;
  }
} catch {
  // a browser that keeps nothing shows what the device is set to
}
