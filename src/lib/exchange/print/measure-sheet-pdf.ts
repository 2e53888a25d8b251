/** Field measures on upright sheets, one opening each: blank to write on, or with what was read and what it came to. */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { printed } from '../../drawing/svg-text.ts';
import { paperSizes, type PaperId } from '../paper-sizes.ts';
import { paperText } from './helvetica.ts';
import { makePdf, margin, momentText } from './make-pdf.ts';
import { rowRules } from './upright-page.ts';

/** One line of a table: what, and what was read of it. Blank texts are written by hand. */
interface PrintedReading {
	readonly title: string;
	/** How it is taken; blank where it was. */
	readonly how: string;
	readonly drawn: string;
	readonly measured: string;
}

interface PrintedPlumb {
	readonly title: string;
	readonly rows: readonly {
		readonly height: string;
		readonly inPlane: string;
		readonly outOfPlane: string;
	}[];
}

interface PrintedFinding {
	readonly title: string;
	readonly state: string;
	readonly text: string;
}

/** All texts as they are printed. */
export interface PrintedMeasure {
	readonly openingId: string;
	/** Location and phase, where the row has them. */
	readonly where: string;
	readonly readings: readonly PrintedReading[];
	readonly plumb: readonly PrintedPlumb[];
	readonly note: string;
	/** Who measured and when; blank to be written. */
	readonly who: string;
	/** What it came to; null on a sheet to be filled in. */
	readonly verdict: {
		readonly text: string;
		readonly findings: readonly PrintedFinding[];
		readonly effects: string;
		/** One a side. */
		readonly shims: readonly string[];
		readonly cautions: readonly string[];
	} | null;
}

export interface MeasureSheetTask {
	readonly what: 'measureSheet';
	readonly paper: PaperId;
	readonly jobName: string;
	readonly printedAt: Date;
	readonly openings: readonly PrintedMeasure[];
	/** The usual cautions. */
	readonly cautions: readonly string[];
}

const quiet = printed.plain('inkQuiet');

const cell = (text: string, more: Readonly<Record<string, unknown>> = {}): TableCell => ({
	text: paperText(text),
	...more
});

const heads = (...titles: string[]): TableCell[] =>
	titles.map((title) => cell(title, { fontSize: 7, color: quiet }));

const lined = (widths: (number | '*')[], body: TableCell[][], tall: boolean): Content => ({
	table: {
		headerRows: 1,
		dontBreakRows: true,
		widths,
		body,
		heights: (row) => (row === 0 || !tall ? 0 : 17)
	},
	layout: {
		...rowRules,
		paddingTop: () => 1.5,
		paddingBottom: () => 1.5
	},
	margin: [0, 2, 0, 6]
});

function plumbTable({ title, rows }: PrintedPlumb, tall: boolean): Content {
	const body = rows.map(({ height, inPlane, outOfPlane }) => [cell(height), cell(inPlane), cell(outOfPlane)]);
	return {
		stack: [
			{ text: paperText(title), bold: true },
			lined(
				['*', '*', '*'],
				[heads('Height above the sill', '+ into the opening', '+ towards the coil side'), ...body],
				tall
			)
		]
	};
}

function verdictOf(verdict: NonNullable<PrintedMeasure['verdict']>): Content[] {
	const { text, findings, effects, shims, cautions } = verdict;
	return [
		{ text: paperText(text), bold: true, fontSize: 10, margin: [0, 4, 0, 4] },
		lined(
			[92, 62, '*'],
			[
				heads('Against the drawing', '', ''),
				...findings.map((one) => [cell(one.title), cell(one.state, { bold: true }), cell(one.text)])
			],
			false
		),
		{ text: paperText(effects), margin: [0, 0, 0, 4] },
		...shims.map((one): Content => ({ text: paperText(one), margin: [0, 0, 0, 2] })),
		...cautions.map((one): Content => ({ text: paperText(one), margin: [0, 0, 0, 2] }))
	];
}

function page(measure: PrintedMeasure, cautions: readonly string[], isFirst: boolean): Content[] {
	const { openingId, where, readings, plumb, note, who, verdict } = measure;
	const blank = verdict === null;
	return [
		{
			text: paperText(openingId),
			bold: true,
			fontSize: 15,
			...(isFirst ? {} : { pageBreak: 'before' as const })
		},
		{ text: paperText(where), color: quiet, margin: [0, 0, 0, 2] },
		{
			text: 'Left and right are seen from the coil side: stand where the coil will be, and face the wall.',
			bold: true,
			margin: [0, 0, 0, 3]
		},
		{
			text: paperText(
				who === '' ? 'Measured by ______________________________   on ____________________' : who
			),
			margin: [0, blank ? 6 : 0, 0, 4]
		},
		lined(
			['*', 86, 110],
			[
				heads('Reading', 'Drawn', 'Measured'),
				...readings.map(({ title, how, drawn, measured }) => [
					{
						stack: [
							{ text: paperText(title) },
							...(how === '' ? [] : [{ text: paperText(how), fontSize: 6.5, color: quiet }])
						]
					},
					cell(drawn),
					cell(measured, { bold: true })
				])
			],
			blank
		),
		{ columns: plumb.map((one) => plumbTable(one, blank)), columnGap: 18 },
		{ text: paperText(`Note: ${note}`), margin: [0, 0, 0, blank ? 30 : 4] },
		...(verdict ? verdictOf(verdict) : []),
		{ ul: cautions.map((text) => paperText(text)), fontSize: 7, margin: [0, 4, 0, 0] }
	];
}

export async function measureSheetPdf(task: MeasureSheetTask): Promise<Uint8Array> {
	const { width: height, height: width } = paperSizes[task.paper];
	const { jobName, printedAt, openings, cautions } = task;
	return makePdf(
		{
			pageSize: { width, height },
			pageMargins: [margin, margin + 22, margin, margin + 8],
			defaultStyle: { fontSize: 8.5, lineHeight: 1.1 },
			header: {
				margin: [margin, margin - 6, margin, 0],
				columns: [
					{ width: '*', text: paperText(jobName), bold: true, fontSize: 11 },
					{ width: 'auto', text: 'Field measure', fontSize: 11 }
				]
			},
			footer: (at: number, pages: number) => ({
				margin: [margin, 2, margin, 0],
				fontSize: 7.5,
				columns: [
					{
						width: '*',
						text: `Printed ${momentText(printedAt)}. It says what was compared with the drawing; it approves nothing.`
					},
					{ width: 'auto', text: `page ${at} of ${pages}` }
				]
			}),
			content: openings.flatMap((measure, i) => page(measure, cautions, i === 0))
		},
		{ title: `${paperText(jobName)}: field measure`, printedAt }
	);
}
