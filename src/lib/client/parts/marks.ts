/**
 * Small marks drawn on a 16 × 16 field. A mark always stands beside its word; the shapes differ so that they can be
 * told apart without colour.
 */
export const marks = {
	/** An octagon, filled. */
	stop: { d: 'M5 1h6l4 4v6l-4 4H5l-4-4V5z', filled: true },
	/** A triangle. */
	caution: { d: 'M8 1.8 15 14H1zM8 6v4M8 12v.6', filled: false },
	/** A ring with a dot. */
	note: { d: 'M8 2a6 6 0 1 1 0 12A6 6 0 0 1 8 2zM8 7.5v4M8 4.6v.6', filled: false },
	/** A tick. */
	right: { d: 'M2 8.5 6.2 13 14 3.5', filled: false },
	/** A bar cut off. */
	short: { d: 'M2 5h6v6H2zM10.5 4v8M13.5 4v8', filled: false },
	/** A bar with more on top. */
	over: { d: 'M2 6h9v8H2zM8 1v4M6 3h4M14 6v8', filled: false },
	/** A cross. */
	wrong: { d: 'M3 3l10 10M13 3 3 13', filled: false },
	/** A line that is not there. */
	absent: { d: 'M2 4h12M2 12h12M2 8h2M7 8h2M12 8h2', filled: false },
	/** A plus. */
	extra: { d: 'M8 2v12M2 8h12', filled: false },
	/** A broken bar. */
	damaged: { d: 'M1 5h6l-2 3 3 2-2 3H1zM10 3h5v10h-4l2-3-3-2z', filled: false },
	/** An hourglass. */
	later: { d: 'M3 2h10M3 14h10M4 2c0 5 8 7 8 12M12 2c0 5-8 7-8 12', filled: false },
	/** A circle under way. */
	busy: { d: 'M8 2a6 6 0 1 1-6 6', filled: false },
	/** A bar across. */
	held: { d: 'M2 2v12M14 2v12M2 8h12', filled: false }
} as const satisfies Record<string, { d: string; filled: boolean }>;

export type MarkName = keyof typeof marks;

/** The mark as an element, for places that are not Svelte's. */
export function markElement(name: MarkName): SVGSVGElement {
	const namespace = 'http://www.w3.org/2000/svg';
	const svg = document.createElementNS(namespace, 'svg');
	svg.setAttribute('viewBox', '0 0 16 16');
	svg.setAttribute('class', `mark ${name}`);
	svg.setAttribute('aria-hidden', 'true');
	const path = document.createElementNS(namespace, 'path');
	path.setAttribute('d', marks[name].d);
	if (marks[name].filled) path.setAttribute('class', 'filled');
	svg.append(path);
	return svg;
}
