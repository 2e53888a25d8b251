import fc from 'fast-check';
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { mostPastedCells, readClipboard, writeClipboard, type ClipboardReading } from './clipboard.ts';

/** As a browser does: whatever is given becomes the body of a page. */
const parse = (html: string): Document =>
	parseHTML(/<html/iu.test(html) ? html : `<html><body>${html}</body></html>`).document;
const readText = (text: string): ClipboardReading => readClipboard({ text, html: '' }, parse);
const readHtml = (html: string, text = ''): ClipboardReading => readClipboard({ text, html }, parse);
const ok = (cells: string[][]): ClipboardReading => ({ ok: true, cells });
const words = (text: string): { text: string; figure: null } => ({ text, figure: null });

const reasonOf = (reading: ClipboardReading): string => (reading.ok ? '' : reading.reason);

describe('tab-separated text from the clipboard', () => {
	it('reads rows and cells, with any line end', () => {
		const cells = ok([
			['C-101', '120'],
			['C-102', '96']
		]);
		expect(readText('C-101\t120\r\nC-102\t96\r\n')).toEqual(cells);
		expect(readText('C-101\t120\nC-102\t96')).toEqual(cells);
		expect(readText('C-101\t120\rC-102\t96\r')).toEqual(cells);
	});

	it('keeps inch and foot marks, and quotes that are not around a whole cell', () => {
		expect(readText(`12'-6 1/2"\t8"`)).toEqual(ok([[`12'-6 1/2"`, '8"']]));
		expect(readText(`"A" wing\t12"\n"\t"" \n`)).toEqual(
			ok([
				['"A" wing', '12"'],
				['"', '"" ']
			])
		);
	});

	it('reads quoted cells with tabs, line ends and doubled quotes', () => {
		expect(readText('"a\tb"\t"two\r\nlines"\t"10"" wide"\t""\n')).toEqual(
			ok([['a\tb', 'two\nlines', '10" wide', '']])
		);
	});

	it('keeps blank cells and blank rows in the middle', () => {
		expect(readText('a\t\tb\n\nc\n')).toEqual(ok([['a', '', 'b'], [''], ['c']]));
	});

	it('says that there is nothing', () => {
		expect(reasonOf(readText(''))).toContain('copy some cells first');
	});
});

describe('an HTML table from the clipboard', () => {
	it('reads a line break as one, a line end of the source as a space, and keeps other spaces', () => {
		expect(
			readHtml('<table><tr><td>two<br>\n  lines</td><td>one\n   line</td><td> a  b\tc</td></tr></table>')
		).toEqual(ok([['two\nlines', 'one line', ' a  b\tc']]));
	});

	it('reads paragraphs as lines, and a lone break as an empty cell', () => {
		expect(
			readHtml('<table><tr><td><p>one</p>\n<p>two</p></td><td><br></td><td>a<div>b</div>c</td></tr></table>')
		).toEqual(ok([['one\ntwo', '', 'a\nb\nc']]));
	});

	it('gives cells under a merged one as blank ones, whatever the rows are like', () => {
		const table = `<table><tr><td rowspan=2>A</td><td colspan=2>B</td></tr><tr><td>C</td><td rowspan=3>D</td></tr>
			<tr><td>E</td></tr><tr><td>F</td><td>G</td></tr></table>`;
		expect(readHtml(table)).toEqual(ok([['A', 'B', ''], ['', 'C', 'D'], ['E'], ['F', 'G', '']]));
	});

	it('covers no more rows below than a merged cell says, also where rows end before it', () => {
		const table = `<table><tr><td>a</td><td>b</td><td rowspan=2>c</td></tr><tr><td>d</td></tr>
			<tr><td>e</td><td>f</td><td>g</td></tr></table>`;
		expect(readHtml(table)).toEqual(ok([['a', 'b', 'c'], ['d'], ['e', 'f', 'g']]));
	});

	it('leaves hidden rows, columns and cells out', () => {
		const table = `<table><colgroup><col><col style="display: none"><col></colgroup>
			<tr><td>a</td><td style="display:none">b</td><td>c</td></tr>
			<tr hidden><td>d</td><td>e</td><td>f</td></tr>
			<tr><td>g</td><td>h</td><td>i</td></tr></table>`;
		expect(readHtml(table)).toEqual(
			ok([
				['a', 'c'],
				['g', 'i']
			])
		);
	});

	it('keeps a fraction that is set high and low apart from the whole number', () => {
		expect(readHtml(`<table><tr><td>12'-6<sup>1</sup>/<sub>2</sub>"</td></tr></table>`)).toEqual(
			ok([[`12'-6¹/₂"`]])
		);
		expect(readHtml('<table><tr><td>6<sup>1</sup>/<sub>2</sub> x 4</td></tr></table>')).toEqual(
			ok([['6¹/₂ x 4']])
		);
	});

	it('reads marked runs of spaces as spaces, and no remarks, styles or scripts', () => {
		const cell = `<style>td{}</style><comment>remark</comment>a<span style="mso-spacerun:yes">&nbsp; </span>b<script>c</script>`;
		expect(readHtml(`<table><tr><td>${cell}</td></tr></table>`)).toEqual(ok([['a  b']]));
	});

	it('reads a table within a cell as its words, and tables one below the other', () => {
		expect(
			readHtml('<table><tr><td>a<table><tr><td>b</td></tr></table></td></tr></table><table><tr><th>c</table>')
		).toEqual(ok([['a\nb'], ['c']]));
	});

	it('takes the text instead where there is no table, or words stand beside it', () => {
		expect(readHtml('<p>a\tb</p>', 'a\tb')).toEqual(ok([['a', 'b']]));
		expect(readHtml('<p>Heading</p><table><tr><td>a</td></tr></table>', 'Heading\na')).toEqual(
			ok([['Heading'], ['a']])
		);
		expect(readHtml('<p>Heading</p><table><tr><td>a</td></tr></table>')).toEqual(ok([['a']]));
	});

	it('reads a page however deep it nests', () => {
		const deep = 20_000;
		const page = `<table><tr><td>${'<b>'.repeat(deep)}x${'</b>'.repeat(deep)}</td></tr></table>`;
		expect(readHtml(page)).toEqual(ok([['x']]));
	});
});

describe('too many cells', () => {
	const refused = (cells: string): unknown => ({
		ok: false,
		reason: `there are ${cells} cells on the clipboard, and at most 200,000 go in at once; copy fewer rows at a time, or save them as a file and import it`
	});
	const notParsed = (): Document => {
		throw new Error('it was parsed');
	};

	it('counts a million cells of text and takes none', () => {
		expect(readText('8\t4\t2\t1\t0\t1\t2\t4\t8\t16\n'.repeat(100_000))).toEqual(refused('1,000,000'));
	});

	it('counts a million cells of a table without parsing them', () => {
		const html = `<table>${`<tr>${'<td>8</td>'.repeat(10)}</tr>`.repeat(100_000)}</table>`;
		expect(readClipboard({ text: '8', html }, notParsed)).toEqual(refused('1,000,000'));
	});

	it('does not parse a table of too many characters: the text is read', () => {
		const html = `<table><tr><td style="${' '.repeat(33 * 1024 * 1024)}">8</td></tr></table>`;
		expect(readClipboard({ text: '8', html }, notParsed)).toEqual(ok([['8']]));
		expect(reasonOf(readClipboard({ text: html, html: '' }, notParsed))).toContain(
			'at most 33,554,432 go in at once'
		);
	});

	it('counts cells that merged ones cover', () => {
		const table = `<table>${'<tr><td colspan="1000" rowspan="65534">8</td></tr>'.repeat(300)}</table>`;
		expect(reasonOf(readHtml(table))).toContain('cells on the clipboard');
	});

	it('takes as many as may go in', () => {
		const reading = readText('1\t2\n'.repeat(mostPastedCells / 2));
		expect(reading.ok && reading.cells.length).toBe(mostPastedCells / 2);
	});

	it('takes a text of opening quotes in one pass', () => {
		const reading = readText('"a\n'.repeat(100_000));
		expect(reading.ok && reading.cells[99_999]).toEqual(['"a']);
	});
});

describe('what is written', () => {
	it('is one line without an end for one row, so that it can go into a line of text', () => {
		expect(writeClipboard([[words('a'), words('b')]]).text).toBe('a\tb');
		expect(writeClipboard([[words('a')], [words('b')]]).text).toBe('a\nb\n');
	});

	it('holds no markup of a cell', () => {
		const { html } = writeClipboard([[words('<img src=x onerror=alert(1)> & "q"')]]);
		expect(html).toContain('&lt;img src=x onerror=alert(1)&gt; &amp; &quot;q&quot;');
	});

	it('holds a figure that is no number as text', () => {
		expect(writeClipboard([[{ text: '–', figure: NaN }]]).html).not.toContain('NaN');
	});
});

describe('whatever is on the clipboard', () => {
	const anyText = fc.oneof(
		fc.string({ unit: 'binary', maxLength: 12 }),
		fc.string({
			unit: fc.constantFrom('"', '\t', '\n', '\r', ' ', 'a', '<', '&', "'", '\u00A0'),
			maxLength: 8
		})
	);
	/** The forms hold no control characters but tabs and line ends, which are \n, and only whole characters. */
	const kept = (text: string): string =>
		text
			.toWellFormed()
			.replace(/\r\n?/gu, '\n')
			.replace(/[^\P{Cc}\n\t]/gu, '');
	const tables = fc
		.integer({ min: 1, max: 4 })
		.chain((width) =>
			fc.array(fc.array(anyText, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 4 })
		);

	it('gives the same texts back from the text', () => {
		fc.assert(
			fc.property(tables, (table) => {
				const { text } = writeClipboard(table.map((line) => line.map(words)));
				expect(readText(text)).toEqual(ok(table.map((line) => line.map(kept))));
			}),
			{ numRuns: 1000 }
		);
	});

	it('gives the same texts back from the table', () => {
		fc.assert(
			fc.property(tables, fc.option(fc.double()), (table, figure) => {
				const { html } = writeClipboard(table.map((line) => line.map((text) => ({ text, figure }))));
				expect(readHtml(html, 'not this')).toEqual(ok(table.map((line) => line.map(kept))));
			}),
			{ numRuns: 1000 }
		);
	});

	it('is read or refused, never thrown at', () => {
		const tag = fc.constantFrom(
			...[
				'<table>',
				'</table>',
				'<tr>',
				'</tr>',
				'<td>',
				'</td>',
				'<td rowspan=3>',
				'<td colspan=0>',
				'<th hidden>'
			],
			...[
				'<td colspan=-1 rowspan=x>',
				'<col span=2 style="display:none">',
				'<br>',
				'<p>',
				'</p>',
				'<sup>',
				'</sup>'
			],
			...[
				'<comment>',
				'<!--',
				'-->',
				'<tbody>',
				'"',
				'\t',
				'\n',
				'1',
				'&nbsp;',
				'<style>',
				'</style>',
				'<html>'
			]
		);
		const page = fc.array(tag, { maxLength: 40 }).map((parts) => parts.join(''));
		fc.assert(
			fc.property(fc.oneof(page, anyText), fc.oneof(page, anyText), (html, text) => {
				const reading = readClipboard({ text, html }, parse);
				if (reading.ok) expect(reading.cells.length).toBeGreaterThan(0);
				else expect(reading.reason).toContain(';');
			}),
			{ numRuns: 3000 }
		);
	});
});
