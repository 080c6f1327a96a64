// Before anything is drawn: the theme this device chose. Without a choice the system decides.
try {
  const { theme } = JSON.parse(localStorage.getItem('fairclimb.settings') ?? '{}')
  if (theme === 'light' || theme === 'dark') document.documentElement.dataset.theme = theme
} catch {
  // Storage is closed to us: the system decides.
}
