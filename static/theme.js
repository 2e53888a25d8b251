// Runs before the first paint, so that the chosen screen colours do not flash.
try {
	const chosen = localStorage.getItem('coilwright.screen');
	if (chosen === 'light' || chosen === 'dark' || chosen === 'contrast') {
		document.documentElement.dataset.screen = chosen;
	}
} catch {
	// No storage: the system's choice stands.
}
