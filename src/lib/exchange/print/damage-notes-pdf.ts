/** Damage notes of one truck on upright sheets, to sign beside the carrier's paper. */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { beforeSigning } from '../../delivery/counting/damage-words.ts';
import { printed } from '../../drawing/svg-text.ts';
import type { PaperId } from '../paper-sizes.ts';
import { paperText } from './helvetica.ts';
import { jpegSize } from './jpeg-size.ts';
import { makePdf } from './make-pdf.ts';
import { rowRules, uprightPage } from './upright-page.ts';

/** One thing that came otherwise than listed. All texts as they are printed. */
export interface PrintedDamage {
	/** `Line 12, crate 3`. */
	readonly where: string;
	readonly what: string;
	readonly listed: string;
	readonly findings: string;
	readonly note: string;
	/** Who and when. */
	readonly who: string;
	/** Pictures as they were taken in. Only JPEG can be put on paper. */
	readonly photos: readonly Uint8Array[];
	/** Pictures that are on the page only. */
	readonly morePhotos: number;
}

export interface DamageNotesTask {
	readonly what: 'damageNotes';
	readonly paper: PaperId;
	readonly jobName: string;
	readonly printedAt: Date;
	/** `Packing list PL-4502 (truck 2.csv) of Northreach Shutter Works`. */
	readonly truck: string;
	/** `2026-12-01`; blank to be written by hand. */
	readonly deliveredOn: string;
	readonly notes: readonly PrintedDamage[];
	/** Sentences about what is not in the notes. */
	readonly remarks: readonly string[];
	/** The sentence about concealed damage. */
	readonly concealed: string;
}

const quiet = printed.plain('inkQuiet');
const thumb = { width: 118, height: 96 } as const;

const cell = (text: string, more: Readonly<Record<string, unknown>> = {}): TableCell => ({
	text: paperText(text),
	...more
});

/** A line to write on, with what belongs there below it. */
const blank = (label: string, written = ''): Content => ({
	stack: [
		{ text: paperText(written), fontSize: 10, margin: [0, 16, 0, 1] },
		{
			canvas: [
				{ type: 'line', x1: 0, y1: 0, x2: 240, y2: 0, lineWidth: 0.6, lineColor: printed.plain('ink') }
			]
		},
		{ text: paperText(label), fontSize: 7.5, color: quiet, margin: [0, 1, 0, 4] }
	]
});

function pictures({ photos, morePhotos }: PrintedDamage): Content[] {
	const shown = photos.filter((bytes) => jpegSize(bytes) !== null);
	const left = morePhotos + photos.length - shown.length;
	return [
		...(shown.length === 0
			? []
			: [
					{
						columns: shown.map((bytes) => ({
							image: `data:image/jpeg;base64,${Buffer.from(bytes).toString('base64')}`,
							fit: [thumb.width, thumb.height] as [number, number]
						})),
						columnGap: 6,
						margin: [0, 3, 0, 2] as [number, number, number, number]
					}
				]),
		...(left === 0
			? []
			: [{ text: `${left} ${left === 1 ? 'more photo is' : 'more photos are'} on the page.`, color: quiet }])
	];
}

function noteRow(note: PrintedDamage, at: number): TableCell[] {
	return [
		cell(String(at + 1)),
		{
			stack: [
				{ text: paperText(note.what), bold: true },
				{
					text: paperText(`${note.where}${note.listed === '' ? '' : `; listed ${note.listed}`}`),
					color: quiet
				},
				...(note.note === '' ? [] : [{ text: paperText(note.note) }]),
				...pictures(note)
			]
		},
		cell(note.findings, { bold: true }),
		cell(note.who)
	];
}

const signatures: Content = {
	unbreakable: true,
	stack: [
		{ text: 'To sign beside the carrier’s paper', bold: true, fontSize: 11, margin: [0, 12, 0, 0] },
		{ columns: [blank('Carrier'), blank('Number of the waybill or freight bill')], columnGap: 24 },
		{ columns: [blank('Truck or trailer'), blank('Seal number, and whether it was whole')], columnGap: 24 },
		{ columns: [blank('Driver: name and signature'), blank('Date and time')], columnGap: 24 },
		{ columns: [blank('Received by: name and signature'), blank('Date and time')], columnGap: 24 }
	]
};

export async function damageNotesPdf(task: DamageNotesTask): Promise<Uint8Array> {
	const { notes, jobName, printedAt } = task;
	const head = ['No.', 'What, where and what was seen', 'Finding', 'Counted by'].map((text) =>
		cell(text, { bold: true, fontSize: 7.5, color: quiet })
	);
	const table: Content =
		notes.length === 0
			? { text: 'Nothing counted so far is damaged, wrong, short or too many.', margin: [0, 4, 0, 4] }
			: {
					table: {
						headerRows: 1,
						dontBreakRows: true,
						widths: [18, '*', 84, 92],
						body: [head, ...notes.map(noteRow)]
					},
					layout: rowRules,
					margin: [0, 4, 0, 4]
				};
	return makePdf(
		{
			...uprightPage({
				paper: task.paper,
				jobName,
				title: 'Damage notes',
				printedAt,
				says: 'What is on the carrier’s own paper goes before this one.'
			}),
			content: [
				{ text: paperText(task.truck), bold: true, fontSize: 10 },
				{
					text: `Delivered on ${task.deliveredOn === '' ? '____________' : task.deliveredOn}`,
					margin: [0, 2, 0, 4]
				},
				{ ul: beforeSigning.map((text) => paperText(text)), margin: [0, 2, 0, 6] },
				table,
				...task.remarks.map((text) => ({ text: paperText(text) })),
				signatures,
				{ text: 'Concealed damage', bold: true, margin: [0, 10, 0, 1] },
				{ text: paperText(task.concealed) }
			]
		},
		{ title: `${paperText(jobName)}: damage notes`, printedAt }
	);
}
