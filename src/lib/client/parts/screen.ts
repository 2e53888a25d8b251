/** Screen colours a person can choose. `system` follows the machine. */
export const screens = ['system', 'light', 'dark', 'contrast'] as const;
export type Screen = (typeof screens)[number];

export const screenWords: Record<Screen, string> = {
	system: 'As the system',
	light: 'Light',
	dark: 'Dark',
	contrast: 'High contrast'
};

/** Also read by `static/theme.js`, before the first paint. */
const storageKey = 'coilwright.screen';

const isScreen = (text: string | null): text is Screen =>
	(screens as readonly (string | null)[]).includes(text);

export function chosenScreen(): Screen {
	try {
		const stored = localStorage.getItem(storageKey);
		return isScreen(stored) ? stored : 'system';
	} catch {
		return 'system';
	}
}

/** Shows the colours at once and keeps the choice in this browser. */
export function chooseScreen(screen: Screen): void {
	if (screen === 'system') delete document.documentElement.dataset.screen;
	else document.documentElement.dataset.screen = screen;
	try {
		localStorage.setItem(storageKey, screen);
	} catch {
		// Storage is switched off: the choice lasts until the page is left.
	}
}
