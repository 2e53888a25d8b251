/** What can start up to a day, with what to bring, and what is held and by whom: upright sheets for the van. */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { printed } from '../../drawing/svg-text.ts';
import type { PaperId } from '../paper-sizes.ts';
import { paperText } from './helvetica.ts';
import { makePdf } from './make-pdf.ts';
import { rowRules, uprightPage } from './upright-page.ts';

/** All texts as they are printed. */
export interface TomorrowTask {
	readonly what: 'tomorrow';
	readonly paper: PaperId;
	readonly jobName: string;
	readonly printedAt: Date;
	/** `2026-12-02` */
	readonly day: string;
	/** How short parts were dealt out, a sentence. */
	readonly dealt: string;
	readonly start: readonly {
		readonly opening: string;
		/** Where it is; blank where nobody wrote it. */
		readonly place: string;
		readonly planned: string;
		readonly tasks: readonly { readonly task: string; readonly bring: readonly string[] }[];
	}[];
	readonly held: readonly {
		readonly opening: string;
		readonly place: string;
		readonly planned: string;
		readonly tasks: string;
		readonly holds: readonly { readonly text: string; readonly who: string; readonly since: string }[];
	}[];
	/** Openings that could start and have no day. */
	readonly withoutDay: string;
	/** What was checked and what was not, a sentence each. */
	readonly checked: readonly string[];
	readonly cautions: readonly string[];
}

const quiet = printed.plain('inkQuiet');

const head = (...texts: readonly string[]): TableCell[] =>
	texts.map((text) => ({ text, bold: true, fontSize: 7.5, color: quiet }));

const openingCell = (opening: string, place: string, planned: string): TableCell => ({
	stack: [
		{ text: paperText(opening), bold: true },
		...(place === '' ? [] : [{ text: paperText(place), color: quiet }]),
		{ text: planned, color: quiet }
	]
});

/** A box to tick by hand, and what belongs beside it. */
const ticked = (text: string): Content => ({
	columns: [
		{
			width: 11,
			canvas: [{ type: 'rect', x: 0, y: 1.5, w: 7, h: 7, lineWidth: 0.6, lineColor: printed.plain('ink') }]
		},
		{ width: '*', text: paperText(text) }
	]
});

const title = (text: string): Content => ({ text, bold: true, fontSize: 11, margin: [0, 8, 0, 3] });

function startTable({ start }: TomorrowTask): Content {
	if (start.length === 0) return { text: 'Nothing that is planned can start.', margin: [0, 0, 0, 4] };
	return {
		table: {
			headerRows: 1,
			widths: [104, 52, '*'],
			body: [
				head('Opening', 'Task', 'To bring'),
				...start.flatMap(({ opening, place, planned, tasks }) =>
					tasks.map(({ task, bring }, at): TableCell[] => [
						at === 0 ? openingCell(opening, place, planned) : { text: '' },
						{ text: task, bold: true },
						{ stack: bring.map(ticked) }
					])
				)
			]
		},
		layout: rowRules
	};
}

function heldTable({ held }: TomorrowTask): Content {
	if (held.length === 0) return { text: 'Nothing that is planned is held.', margin: [0, 0, 0, 4] };
	return {
		table: {
			headerRows: 1,
			widths: [104, '*', 84, 66],
			body: [
				head('Opening', 'What holds it', 'Who can clear it', 'Since'),
				...held.flatMap(({ opening, place, planned, tasks, holds }) =>
					holds.map(({ text, who, since }, at): TableCell[] => [
						at === 0 ? openingCell(opening, place, `${planned}; ${tasks}`) : { text: '' },
						{ text: paperText(text) },
						{ text: paperText(who) },
						{ text: since }
					])
				)
			]
		},
		layout: rowRules
	};
}

export async function tomorrowPdf(task: TomorrowTask): Promise<Uint8Array> {
	const { jobName, day, printedAt } = task;
	return makePdf(
		{
			...uprightPage({
				paper: task.paper,
				jobName,
				title: `What can start, up to ${day}`,
				printedAt,
				says: 'It says what was checked then; it approves nothing.'
			}),
			content: [
				{ text: 'Before anything is lifted, drilled or switched on', bold: true },
				{ ul: task.cautions.map((text) => paperText(text)), margin: [0, 2, 0, 4] },
				{ text: paperText(task.dealt) },
				title('Can start'),
				startTable(task),
				title('Planned, and held'),
				heldTable(task),
				...(task.withoutDay === ''
					? []
					: [title('Could start, and nobody has planned a day'), { text: paperText(task.withoutDay) }]),
				title('What was checked'),
				{ ul: task.checked.map((text) => paperText(text)) }
			]
		},
		{ title: `${paperText(jobName)}: what can start, up to ${day}`, printedAt }
	);
}
