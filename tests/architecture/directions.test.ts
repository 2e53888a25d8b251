import { describe, expect, it } from 'vitest';
import { rooms, wrongDirections } from './directions.ts';
import { readSource, readSources } from './sources.ts';

const root = process.cwd();
const sources = readSources(root, 'src');

describe('the house', () => {
	it('has the rooms of the plan and no others', () => {
		const found = new Set(sources.flatMap(({ path }) => /^src\/lib\/([^/]+)\//u.exec(path)?.[1] ?? []));
		expect([...found].filter((room) => !rooms.some((name) => name === room))).toEqual([]);
	});

	it('has every import going down', () => {
		expect(sources.length).toBeGreaterThan(50);
		expect(sources.flatMap(wrongDirections)).toEqual([]);
	});

	it('names files in kebab-case and components in PascalCase', () => {
		const odd = sources.filter(({ path }) => {
			const name = path.slice(path.lastIndexOf('/') + 1);
			if (path.startsWith('src/routes/') && name.startsWith('+')) return false;
			return path.endsWith('.svelte')
				? !/^[A-Z][A-Za-z0-9]*\.svelte$/u.test(name)
				: !/^[a-z0-9]+(-[a-z0-9]+)*(\.(repository|svelte|test|server|client|d))*\.(ts|mjs|js)$/u.test(name);
		});
		expect(odd.map(({ path }) => path)).toEqual([]);
	});
});

// The test above proves something only if a wrong import would be found.
describe('a wrong import is found', () => {
	const wrong = (path: string, text: string): number => wrongDirections(readSource(path, text)).length;

	it.each([
		['a lower room reaching up', 'src/lib/quantity/a.ts', `import { x } from '../takeoff/engine.ts';`],
		['… with a type too', 'src/lib/quantity/a.ts', `import type { X } from '../takeoff/engine.ts';`],
		['the client reaching the server', 'src/lib/client/a.ts', `import { x } from '../server/http/body.ts';`],
		[
			'a component reaching the workbook',
			'src/lib/client/A.svelte',
			`<script lang="ts">import { x } from '$lib/exchange/workbook/a.ts';</script>`
		],
		[
			'a page reaching the server',
			'src/routes/+page.svelte',
			`<script>import { x } from '$lib/server/http/body.ts';</script>`
		],
		[
			'a route reaching the storage',
			'src/routes/+page.server.ts',
			`import { x } from '$lib/server/storage/storage.ts';`
		],
		[
			'the storage using the engine',
			'src/lib/server/storage/a.ts',
			`import { x } from '../../takeoff/engine.ts';`
		],
		['SQL outside the storage', 'src/lib/server/operations/a.ts', `import { sql } from 'kysely';`],
		[
			'a worker loaded by its address',
			'src/lib/client/a.ts',
			`new Worker(new URL('../server/a.ts', import.meta.url));`
		],
		[
			'a component reaching the print',
			'src/lib/client/A.svelte',
			`<script lang="ts">import { x } from '$lib/exchange/print/a.ts';</script>`
		],
		['pdfmake outside the print', 'src/lib/exchange/a.ts', `const x = await import('pdfmake');`],
		['the drawings reaching a file', 'src/lib/drawing/a.ts', `import { readFileSync } from 'node:fs';`],
		['exceljs outside the workbook', 'src/lib/exchange/a.ts', `const x = await import('exceljs');`],
		['the grid outside its place', 'src/lib/client/why/a.ts', `import 'ag-grid-community';`],
		['the engine reading a file', 'src/lib/takeoff/a.ts', `import { readFileSync } from 'node:fs';`],
		['the engine reading the clock', 'src/lib/price/a.ts', `export const x = Date.now();`],
		['the engine making a date', 'src/lib/price/a.ts', `export const x = new Date();`],
		['the engine throwing dice', 'src/lib/takeoff/a.ts', `export const x = Math.random();`],
		['the engine calling out', 'src/lib/delivery/a.ts', `export const x = fetch('/');`],
		['an import without extension', 'src/lib/takeoff/a.ts', `import { x } from './engine';`],
		['a re-export going up', 'src/lib/quantity/a.ts', `export { x } from '../price/price.ts';`]
	])('%s', (_, path, text) => {
		expect(wrong(path, text)).toBe(1);
	});

	it.each([
		[
			'a type in the storage',
			'src/lib/server/storage/a.ts',
			`import type { Cells } from '../../takeoff/inputs.ts';`
		],
		['a property called process', 'src/lib/takeoff/a.ts', `export const x = a.process + { fetch: 1 }.fetch;`],
		['the client using the engine', 'src/lib/client/a.ts', `import { x } from '../takeoff/engine.ts';`]
	])('%s is right', (_, path, text) => {
		expect(wrong(path, text)).toBe(0);
	});
});
