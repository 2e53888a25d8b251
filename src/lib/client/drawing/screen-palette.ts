/** The colours of a drawing on the screen: those of the theme, which the page gives as variables. */
import type { Colour, Palette } from '../../drawing/ink.ts';

/** Where the page gives none. */
const variables: Readonly<Record<Colour, string>> = {
	ink: 'var(--ink, #25292e)',
	inkQuiet: 'var(--ink-quiet, #5a5f66)',
	paper: 'var(--paper, #faf8f3)',
	sheet: 'var(--sheet, #fff)',
	worked: 'var(--worked, #f2efe6)',
	chalk: 'var(--chalk, #1b5a9e)',
	chalkFaint: 'var(--chalk-faint, #e4edf6)',
	stop: 'var(--stop, #9c2118)'
};

export const screenPalette: Palette = {
	plain: (colour) => variables[colour],
	mixed: (colour, share, into) =>
		`color-mix(in srgb, ${variables[colour]} ${share * 100}%, ${variables[into]})`
};
