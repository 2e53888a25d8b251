/**
 * Every opening on a sheet of its own: elevation, section and the section at the head, each to the largest usual scale
 * that fits, with a title block, a legend, what the checks say, and the cautions of the work.
 */
import type { Content, ContentSvg, TDocumentDefinitions } from 'pdfmake/interfaces.js';
import { layOut, type Area } from '../../drawing/layout.ts';
import { isDrawn, type DimensionShape, type Point, type Scene } from '../../drawing/shapes.ts';
import { strokesOf } from '../../drawing/strokes.ts';
import { drawingElements, hatchElements, printed, textElement } from '../../drawing/svg-text.ts';
import { paperSizes, type PaperId } from '../paper-sizes.ts';
import type { DrawingSheet, PrintedCheck } from './drawing-sheet.ts';
import { helveticaWidth, linesIn, paperText, shortened } from './helvetica.ts';
import { legendOf, type LaidOut } from './legend.ts';
import { makePdf, margin, momentText, type Printing } from './make-pdf.ts';
import { usualScales, type Scale } from './scales.ts';

/** Points in one unit of the drawing: lines and letters keep the proportions they have on the screen. */
const unit = 0.62;
const pointsInMillimetre = 72 / 25.4;

/** In units of the drawing. */
const sizes = { figure: 11.5, title: 13.5, legend: 10.5, titleRow: 34, gap: 10 } as const;

/** In points. */
const textSize = 7.5;
const lineHeight = 1.16;
/** Ascender to descender, as a share of the font size. */
const letterHeight = 0.925;
const headHeight = 20;
const blockHeight = 62;
const columnGap = 16;

/** How the width is shared out: the elevation, and of what is left the whole section. */
const shares = [0.44, 0.5, 0.56, 0.62, 0.68].flatMap((elevation) =>
	[0.36, 0.45].map((section) => ({ elevation, section }))
);

/** How much the scale of each drawing counts. */
const weights = [4, 2, 1] as const;

interface Placed extends LaidOut {
	readonly area: Area;
	/** Null where no usual scale fits. */
	readonly scale: Scale | null;
}

function place(scene: Scene, area: Area): Placed {
	const usual = usualScales[scene.measures];
	const layout = layOut(scene, area, sizes.figure, {
		// A little generous, for what is bold.
		widthOf: (text, fontSize) => helveticaWidth(text, fontSize) * 1.08,
		scales: usual.map(({ ratio }) => (ratio * pointsInMillimetre) / unit)
	});
	const ratio = (layout.scale * unit) / pointsInMillimetre;
	const scale = layout.usualScale
		? usual.reduce((best, one) => (Math.abs(one.ratio - ratio) < Math.abs(best.ratio - ratio) ? one : best))
		: null;
	return { scene, layout, scale, area, strokes: strokesOf(scene, layout, printed) };
}

/** Sizes and notes that there is no room for. */
const leftOut = ({ scene, layout }: Placed): number =>
	scene.shapes.filter((shape) => !isDrawn(shape)).length - layout.dimensions.length - layout.notes.length;

/** The drawings side by side, as large as they can be: what counts most is the scale of the elevation. */
function arranged(scenes: readonly Scene[], width: number, height: number): Placed[] {
	const area = (from: number, to: number): Area => ({ x: from, y: 0, width: to - from, height });
	const [first, second, third] = scenes;
	if (!first) return [];
	if (!second) return [place(first, area(0, width))];
	const firsts = new Map<number, Placed>();
	let best: { score: number; placed: Placed[] } | null = null;
	for (const share of shares) {
		const to = width * share.elevation;
		const left = firsts.get(share.elevation) ?? place(first, area(0, to));
		firsts.set(share.elevation, left);
		const split = third ? to + (width - to) * share.section : width;
		const placed = [
			left,
			place(second, area(to, split)),
			...(third ? [place(third, area(split, width))] : [])
		];
		const score = placed.reduce(
			(sum, one, i) => sum + (weights[i] ?? 1) * Math.log(one.layout.scale) - 8 * leftOut(one),
			0
		);
		if (best === null || score > best.score + 1e-9) best = { score, placed };
	}
	return best?.placed ?? [];
}

/** `Section of C-101, looking right` → `Section, looking right`: the mark stands in the title block. */
const titleOf = ({ title }: Scene, name: string): string => title.replace(` of ${name}`, '');

const scaleWords = (scale: Scale | null): string =>
	scale === null ? 'no usual scale fits: see its bar' : `scale ${scale.text}`;

function titleElements({ scene, scale, area }: Placed, name: string): string {
	const at: Point = { x: area.x + 8, y: sizes.title / 2 };
	const under = { x: at.x, y: at.y + sizes.title + 3 };
	const room = area.width - 12;
	/** Smaller where the drawing is narrow. */
	const fontSize = (text: string, bold: boolean): number =>
		Math.min(sizes.title, (sizes.title * room) / helveticaWidth(text, sizes.title, bold));
	const [title, words] = [titleOf(scene, name), scaleWords(scale)];
	return (
		textElement(title, at, { fontSize: fontSize(title, true), bold: true, anchor: 'start' }) +
		textElement(words, under, { fontSize: fontSize(words, false), colour: 'chalk', anchor: 'start' })
	);
}

/** All drawings of a sheet with their legend, in a box of this size in points. */
function drawings(sheet: DrawingSheet, width: number, height: number): ContentSvg {
	const [across, down] = [width / unit, height / unit];
	// The legend’s height depends on what is drawn, and the drawings on the height that the legend leaves.
	const guess = arranged(sheet.scenes, across, down - sizes.titleRow - 60);
	const legend = legendOf(guess, across - 16, sizes.legend);
	const room = down - sizes.titleRow - sizes.gap - legend.height;
	const placed = arranged(sheet.scenes, across, room);
	const used = new Set(placed.flatMap(({ strokes }) => strokes.flatMap(({ hatch }) => hatch ?? [])));
	const content = placed.map(({ scene, layout }) => drawingElements(scene, layout)).join('');
	return {
		svg: [
			`<svg xmlns="http://www.w3.org/2000/svg" width="${width.toFixed(4)}" height="${height.toFixed(4)}"`,
			` viewBox="0 0 ${across.toFixed(6)} ${down.toFixed(6)}" font-family="Helvetica">`,
			hatchElements(used),
			placed.map((one) => titleElements(one, sheet.name)).join(''),
			`<g transform="translate(0 ${String(sizes.titleRow)})">${content}</g>`,
			legend.draw({ x: 8, y: down - legend.height }),
			'</svg>'
		].join(''),
		width
	};
}

const severityWords = { stop: 'Stop', caution: 'Caution' } as const;

interface Paragraph {
	readonly lead: string;
	readonly text: string;
	readonly stop: boolean;
}

const checkParagraph = ({ severity, text, clears }: PrintedCheck): Paragraph => ({
	lead: `${severityWords[severity]}.`,
	text: clears === '' ? text : `${text} To clear it: ${clears}`,
	stop: severity === 'stop'
});

const headingHeight = 14;
const paragraphGap = 2.5;

const heightOf = ({ lead, text }: Paragraph, width: number): number =>
	linesIn(`${lead} ${text}`, width - 4, textSize) * textSize * letterHeight * lineHeight + paragraphGap;

const heading = (text: string): Content => ({ text, bold: true, fontSize: 9, margin: [0, 0, 0, 3] });

const paragraph = ({ lead, text, stop }: Paragraph): Content => ({
	text: [{ text: `${lead} `, bold: true, ...(stop ? { color: printed.plain('stop') } : {}) }, { text }],
	lineHeight,
	margin: [0, 0, 0, paragraphGap]
});

/** Paragraphs in so many columns of about the same height, under a heading over the first. */
function columnsOf(
	title: string,
	paragraphs: readonly Paragraph[],
	count: number,
	width: number
): { contents: Content[][]; height: number } {
	const total = paragraphs.reduce((sum, one) => sum + heightOf(one, width), 0);
	const columns = Array.from({ length: count }, (_, i) => ({
		content: [heading(i === 0 ? title : ' ')],
		height: 0
	}));
	let at = 0;
	for (const one of paragraphs) {
		const column = columns[at];
		if (!column) break;
		column.content.push(paragraph(one));
		column.height += heightOf(one, width);
		if (at < count - 1 && column.height >= total / count - textSize) at++;
	}
	return {
		contents: columns.map(({ content }) => content),
		height: headingHeight + Math.max(...columns.map(({ height }) => height))
	};
}

function saidOf(sheet: DrawingSheet): Paragraph[] {
	const said = sheet.checks.map(checkParagraph);
	// A place that is too long for the title block stands here whole.
	if (shortened(sheet.location, ...locationRoom) !== sheet.location.replaceAll('\n', ' '))
		said.push({ lead: 'Location.', text: sheet.location, stop: false });
	const { notes } = sheet;
	const rest =
		notes === 0 ? '' : ` ${String(notes)} more ${notes === 1 ? 'note is' : 'notes are'} in the takeoff.`;
	const none = sheet.checks.length === 0 ? 'No stop and no caution.' : '';
	if (none !== '' || rest !== '') said.push({ lead: 'Checks.', text: `${none}${rest}`.trim(), stop: false });
	return said;
}

function workOf(sheet: DrawingSheet): Paragraph[] {
	return sheet.work.map((sentence) => {
		const end = sentence.indexOf(':') + 1;
		return { lead: sentence.slice(0, end), text: sentence.slice(end).trim(), stop: false };
	});
}

/** What the checks say and the cautions of the work, in three columns: two for whichever is longer. */
function textColumns(sheet: DrawingSheet, width: number): { content: Content; height: number } {
	const each = (width - 2 * columnGap) / 3;
	const [said, work] = [saidOf(sheet), workOf(sheet)];
	const [least = { contents: [], height: 0 }] = [1, 2]
		.map((count) => {
			const checks = columnsOf('What the checks say', said, count, each);
			const cautions = columnsOf('Work with care', work, 3 - count, each);
			return {
				contents: [...checks.contents, ...cautions.contents],
				height: Math.max(checks.height, cautions.height)
			};
		})
		.sort((a, b) => a.height - b.height);
	return {
		content: { columns: least.contents.map((stack) => ({ width: each, stack })), columnGap },
		height: least.height
	};
}

const stopsOf = ({ checks }: DrawingSheet): number =>
	checks.filter(({ severity }) => severity === 'stop').length;

/** Over every page of a sheet: what it is, and whether it may be built from. */
function head(sheet: DrawingSheet): Content {
	const stops = stopsOf(sheet);
	return {
		margin: [margin, margin - 14, margin, 0],
		columns: [
			{ width: '*', text: `${sheet.name}: drawing to scale`, bold: true, fontSize: 10 },
			stops > 0
				? {
						width: 'auto',
						text: `NOT FOR CONSTRUCTION until field measured: ${String(stops)} ${stops === 1 ? 'stop stands' : 'stops stand'}`,
						bold: true,
						fontSize: 10,
						color: printed.plain('stop')
					}
				: { width: 'auto', text: 'Sizes are the takeoff’s; check them on site', fontSize: 8 }
		]
	};
}

/** Width, size and lines that the title block has for a location and for the name of the job. */
const locationRoom = [190, 8, 2] as const;
const jobRoom = [190, 9, 1] as const;

/** Under every page of a sheet. */
function titleBlock(
	sheet: DrawingSheet,
	{ jobName, printedAt }: Printing,
	{ page, pages, paper }: { page: number; pages: number; paper: string }
): Content {
	const cell = (title: string, text: string, size = 8): Content => ({
		stack: [
			{ text: title, fontSize: 6, color: printed.plain('inkQuiet') },
			{ text, fontSize: size, bold: size > 8 }
		]
	});
	return {
		margin: [margin, 6, margin, 0],
		table: {
			widths: [88, '*', 132, 118, 104],
			heights: [22, 22],
			body: [
				[
					cell('Mark', sheet.name, sheet.name.length > 12 ? 8 : 13),
					cell('Job', shortened(jobName, ...jobRoom), 9),
					cell('Size, wide × high', sheet.size, 9),
					cell('Hand', sheet.hand),
					cell('Printed', momentText(printedAt))
				],
				[
					cell('Quantity', sheet.quantity, 7.5),
					cell(
						'Location',
						sheet.location === '' ? 'not given' : shortened(sheet.location, ...locationRoom),
						7.5
					),
					cell('Curtain', shortened(sheet.curtain, 124, 7.5, 2), 7.5),
					cell('Seen from', sheet.seenFrom, 7.5),
					cell('Page', `${String(page)} of ${String(pages)}; scales hold on ${paper}`, 7.5)
				]
			]
		},
		layout: {
			hLineWidth: (i) => (i === 1 ? 0.4 : 0.9),
			vLineWidth: (i) => (i === 0 || i === 5 ? 0.9 : 0.4),
			paddingTop: () => 2,
			paddingBottom: () => 1
		}
	};
}

/** Letters that the font lacks are written another way. */
const onThisPaper = (sheet: DrawingSheet): DrawingSheet => ({
	...sheet,
	name: paperText(sheet.name),
	location: paperText(sheet.location),
	quantity: paperText(sheet.quantity),
	size: paperText(sheet.size),
	curtain: paperText(sheet.curtain),
	checks: sheet.checks.map((check) => ({
		...check,
		text: paperText(check.text),
		clears: paperText(check.clears)
	})),
	work: sheet.work.map(paperText),
	scenes: sheet.scenes.map(sceneOnPaper)
});

/** On paper nothing can be asked: a size is said with its name where there is room for it. */
const named = ({ title, texts }: DimensionShape): string[] => {
	const [first] = texts;
	const bare = first !== undefined && !/[a-z]{3}/u.test(first);
	return bare ? [`${title.charAt(0).toLowerCase()}${title.slice(1)} ${first}`, ...texts] : [...texts];
};

const sceneOnPaper = (scene: Scene): Scene => ({
	...scene,
	title: paperText(scene.title),
	caption: { ...scene.caption, texts: scene.caption.texts.map(paperText) },
	shapes: scene.shapes.map((shape) =>
		shape.kind === 'dimension'
			? { ...shape, texts: named(shape).map(paperText) }
			: shape.kind === 'note'
				? { ...shape, texts: shape.texts.map(paperText) }
				: shape
	)
});

/** Drawings are never smaller than this share of the page, or the text goes onto the next one. */
const leastShare = 0.6;

function sheetContent(sheet: DrawingSheet, width: number, height: number): Content[] {
	const text = textColumns(sheet, width);
	if (sheet.scenes.length === 0)
		return [
			{ text: 'Nothing to draw: the width and the height are not given.', margin: [0, 0, 0, 12] },
			text.content
		];
	const beside = height - text.height - 10;
	if (beside >= leastShare * height)
		return [drawings(sheet, width, beside), { stack: [text.content], margin: [0, 4, 0, 0] }];
	return [drawings(sheet, width, height - 2), { stack: [text.content], pageBreak: 'before' }];
}

/** The drawings as one file. */
export async function drawingsPdf(
	sheets: readonly DrawingSheet[],
	paper: PaperId,
	printing: Printing
): Promise<Uint8Array> {
	const { width, height, title } = paperSizes[paper];
	const box = { width: width - 2 * margin, height: height - margin - headHeight - blockHeight - margin / 2 };
	const forPaper: Printing = { ...printing, jobName: paperText(printing.jobName) };
	const definition: TDocumentDefinitions = {
		pageSize: { width, height },
		pageMargins: [margin, margin + headHeight - 8, margin, blockHeight + margin / 2 + 8],
		content: sheets.map(onThisPaper).map((sheet) => ({
			section: sheetContent(sheet, box.width, box.height),
			header: () => head(sheet),
			footer: (page: number, pages: number) =>
				titleBlock(sheet, forPaper, { page, pages, paper: title.replace(/,.*/u, '') })
		}))
	};
	return makePdf(definition, { title: `${forPaper.jobName}: drawings`, printedAt: printing.printedAt });
}
