/** Upright sheets of text and tables: the job above, what it is beside it, when it was printed and what it says below. */
import type { CustomTableLayout, TDocumentDefinitions } from 'pdfmake/interfaces.js';
import { printed } from '../../drawing/svg-text.ts';
import { paperSizes, type PaperId } from '../paper-sizes.ts';
import { paperText } from './helvetica.ts';
import { margin, momentText } from './make-pdf.ts';

/** Rules between the rows of a table, firm ones around it and under its headings; none between columns. */
export const rowRules: CustomTableLayout = {
	hLineWidth: (i, node) => (i <= 1 || i === node.table.body.length ? 0.8 : 0.3),
	vLineWidth: () => 0,
	hLineColor: () => printed.plain('inkQuiet')
};

export interface UprightPage {
	readonly paper: PaperId;
	readonly jobName: string;
	/** What the sheets are. */
	readonly title: string;
	readonly printedAt: Date;
	/** A sentence below, after when it was printed. */
	readonly says: string;
}

/** Everything but the content. */
export function uprightPage({
	paper,
	jobName,
	title,
	printedAt,
	says
}: UprightPage): Omit<TDocumentDefinitions, 'content'> {
	const { width: height, height: width } = paperSizes[paper];
	return {
		pageSize: { width, height },
		pageMargins: [margin, margin + 26, margin, margin + 12],
		defaultStyle: { fontSize: 9, lineHeight: 1.12 },
		header: {
			margin: [margin, margin - 6, margin, 0],
			columns: [
				{ width: '*', text: paperText(jobName), bold: true, fontSize: 11 },
				{ width: 'auto', text: title, fontSize: 11 }
			]
		},
		footer: (page: number, pages: number) => ({
			margin: [margin, 4, margin, 0],
			fontSize: 7.5,
			columns: [
				{ width: '*', text: `Printed ${momentText(printedAt)}. ${says}` },
				{ width: 'auto', text: `page ${page} of ${pages}` }
			]
		})
	};
}
