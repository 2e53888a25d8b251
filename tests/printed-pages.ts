/** Pages of a PDF as Poppler reads them: sizes, text, and every line with its place in points. */
import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);
const room = { maxBuffer: 512 * 1024 * 1024 };

interface Place {
	readonly x: number;
	readonly y: number;
}

export interface PrintedLine {
	/** Corners, in points from the upper left of the page. */
	readonly points: readonly Place[];
	/** Red, green and blue in whole percent: `11 35 62`; null for no stroke. */
	readonly stroke: string | null;
}

interface PrintedPage {
	/** In the order in which it was written. */
	readonly text: string;
	/** Boxes of the words. */
	readonly words: readonly {
		readonly text: string;
		readonly left: number;
		readonly right: number;
		readonly top: number;
		readonly bottom: number;
	}[];
}

export interface PrintedFile {
	readonly pages: readonly PrintedPage[];
	/** Width and height of the pages in points, without repeats. */
	readonly sizes: readonly string[];
	/** Sizes of the letters in points, rounded. */
	readonly fontSizes: readonly number[];
	/** Lines and areas of one page, the first is 1. */
	lines(page: number): Promise<PrintedLine[]>;
	/** Takes the file away. */
	close(): Promise<void>;
}

const unescaped = (text: string): string =>
	text
		.replaceAll('&lt;', '<')
		.replaceAll('&gt;', '>')
		.replaceAll('&quot;', '"')
		.replaceAll('&apos;', "'")
		.replace(/&#(\d+);/gu, (_, code: string) => String.fromCodePoint(Number(code)))
		.replaceAll('&amp;', '&');

/** @throws Error when Poppler is missing or does not read the file */
export async function printedFile(bytes: Uint8Array): Promise<PrintedFile> {
	const folder = await mkdtemp(join(tmpdir(), 'coilwright-print-'));
	const file = join(folder, 'file.pdf');
	await writeFile(file, bytes);
	const info = await run('pdfinfo', ['-f', '1', '-l', '100000', file], room);
	const plain = await run('pdftotext', ['-raw', file, '-'], room);
	const boxes = await run('pdftotext', ['-bbox', file, '-'], room);
	const fonts = await run('pdftohtml', ['-xml', '-i', '-stdout', '-zoom', '1', file], room);
	const texts = plain.stdout.split('\f').slice(0, -1);
	const pages = boxes.stdout.split('<page ').slice(1);
	return {
		pages: pages.map((page, i) => ({
			text: texts[i] ?? '',
			words: Array.from(
				page.matchAll(
					/<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)<\/word>/gu
				),
				([, left, top, right, bottom, word = '']) => ({
					text: unescaped(word),
					left: Number(left),
					right: Number(right),
					top: Number(top),
					bottom: Number(bottom)
				})
			)
		})),
		sizes: [
			...new Set(
				Array.from(info.stdout.matchAll(/Page +\d+ size: +([\d.]+ x [\d.]+)/gu), ([, size = '']) => size)
			)
		],
		fontSizes: [
			...new Set(
				Array.from(fonts.stdout.matchAll(/<fontspec [^>]*size="(\d+)"/gu), ([, size]) => Number(size))
			)
		],
		async lines(page) {
			const out = join(folder, `${String(page)}.svg`);
			// Without these two it shrinks a page of broken points to whole ones.
			const asItIs = ['-noshrink', '-nocenter'];
			await run('pdftocairo', ['-svg', ...asItIs, '-f', String(page), '-l', String(page), file, out], room);
			return linesOf(await readFile(out, 'utf8'));
		},
		close: () => rm(folder, { recursive: true, force: true })
	};
}

const numbers = (text: string): number[] =>
	Array.from(text.matchAll(/-?\d+(?:\.\d+)?/gu), ([one]) => Number(one));

/** Paths of the page itself: letters and hatches stand in definitions, clips are no lines. */
function linesOf(svg: string): PrintedLine[] {
	const page = svg
		.replace(/<defs>[\s\S]*?<\/defs>/gu, '')
		.replace(/<pattern [\s\S]*?<\/pattern>/gu, '')
		.replace(/<g id="surface[\s\S]*?<\/g>/gu, '')
		.replace(/<clipPath [\s\S]*?<\/clipPath>/gu, '');
	return Array.from(page.matchAll(/<path ([^>]*)\/>/gu)).flatMap(([, attributes = '']): PrintedLine[] => {
		const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = numbers(
			/transform="matrix\(([^)]*)\)"/u.exec(attributes)?.[1] ?? '1,0,0,1,0,0'
		);
		const parts = (/ d="([^"]*)"/u.exec(attributes)?.[1] ?? '').split('M').slice(1);
		const colour = /[;" ]stroke:rgb\(([^)]*)\)/u.exec(attributes)?.[1];
		return parts.map((part) => {
			const place = numbers(part);
			const points: Place[] = [];
			for (let i = 0; i + 1 < place.length; i += 2) {
				const [x = 0, y = 0] = [place[i], place[i + 1]];
				points.push({ x: a * x + c * y + e, y: b * x + d * y + f });
			}
			return { points, stroke: colour === undefined ? null : numbers(colour).map(Math.round).join(' ') };
		});
	});
}
