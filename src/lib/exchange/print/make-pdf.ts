/** The one place that knows pdfmake: fonts without files, nothing fetched, nothing read. */
import pdfmake from 'pdfmake';
import type { TDocumentDefinitions } from 'pdfmake/interfaces.js';

const cuts = {
	normal: 'Helvetica',
	bold: 'Helvetica-Bold',
	italics: 'Helvetica-Oblique',
	bolditalics: 'Helvetica-BoldOblique'
} as const;

pdfmake.setFonts({ Helvetica: cuts });
pdfmake.setUrlAccessPolicy(() => false);
// A font of the standard fourteen is asked for by its name, as if it were a file.
const names: ReadonlySet<string> = new Set(Object.values(cuts));
pdfmake.setLocalAccessPolicy((path) => names.has(path));

/** Around everything printed, in points. */
export const margin = 36;

/** What every file printed says of itself. */
export interface Printing {
	readonly jobName: string;
	/** For the title block and the foot of the page. */
	readonly printedAt: Date;
}

/** `2026-11-25 14:05`, in the time of the place. */
export const momentText = (moment: Date): string => {
	const two = (value: number): string => String(value).padStart(2, '0');
	const day = `${String(moment.getFullYear())}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
	return `${day} ${two(moment.getHours())}:${two(moment.getMinutes())}`;
};

export async function makePdf(
	definition: TDocumentDefinitions,
	{ title, printedAt }: { readonly title: string; readonly printedAt: Date }
): Promise<Uint8Array> {
	const made = await pdfmake
		.createPdf({
			...definition,
			info: { title, creationDate: printedAt, creator: 'Coilwright', producer: 'Coilwright' },
			defaultStyle: { font: 'Helvetica', fontSize: 7.5, ...definition.defaultStyle }
		})
		.getBuffer();
	return new Uint8Array(made);
}
