/** Sheets of paper to print on: North American sizes (ANSI/ASME Y14.1) and ISO 216. Sides in points, 72 to the inch. */
export const paperIds = ['letter', 'tabloid', 'a4', 'a3'] as const;
export type PaperId = (typeof paperIds)[number];

export interface PaperSize {
	readonly title: string;
	/** The longer side; everything is printed with it across. */
	readonly width: number;
	readonly height: number;
}

const pointsInMillimetre = 72 / 25.4;

const millimetres = (title: string, width: number, height: number): PaperSize => ({
	title,
	width: width * pointsInMillimetre,
	height: height * pointsInMillimetre
});

export const paperSizes: Readonly<Record<PaperId, PaperSize>> = {
	letter: { title: 'Letter, 11 × 8.5 in', width: 11 * 72, height: 8.5 * 72 },
	tabloid: { title: 'Tabloid, 17 × 11 in', width: 17 * 72, height: 11 * 72 },
	a4: millimetres('A4, 297 × 210 mm', 297, 210),
	a3: millimetres('A3, 420 × 297 mm', 420, 297)
};
