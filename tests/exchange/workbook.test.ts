/**
 * The workbook that goes out, recalculated by LibreOffice: every formula cell is the engine's figure, also after inputs
 * were changed in the file; a false stored result comes back right; what a person typed stays text; nothing of the
 * price is in the file of someone who may not see it.
 */
import { readFileSync } from 'node:fs';
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { readTableFile } from '../../src/lib/exchange/table-file.ts';
import { writeWorkbook } from '../../src/lib/exchange/workbook/write-workbook.ts';
import { inUnit } from '../../src/lib/quantity/format.ts';
import { conductors, motorCurrents, standardBreakers } from '../../src/lib/shopbook/published-tables.ts';
import { technicalConstants } from '../../src/lib/shopbook/tables.ts';
import { readCell, typedText } from '../../src/lib/takeoff/cell.ts';
import type { JobTakeoff } from '../../src/lib/takeoff/engine.ts';
import {
	inputs,
	inputOf,
	type Cell,
	type InputId,
	type Measures,
	type OpeningRow
} from '../../src/lib/takeoff/inputs.ts';
import { keysFor } from '../../src/lib/takeoff/keys.ts';
import { materialList } from '../../src/lib/takeoff/parts.ts';
import { picks, type Pick } from '../../src/lib/takeoff/picks.ts';
import type { OpeningTakeoff } from '../../src/lib/takeoff/result.ts';
import { totalsOf } from '../../src/lib/takeoff/totals.ts';
import { chosenQuantities } from '../../src/lib/takeoff/vocabulary.ts';
import { engineOf, openingA, openingB, pricingOf, typedRow, type Typed } from '../opening-rows.ts';
import { needs, recalculate } from '../recalculate.ts';
import {
	agree,
	differences,
	engineDifferences,
	firstRow,
	formulaCells,
	idColumns,
	inputAddress,
	open,
	rowsOf,
	save,
	textAt,
	valueRules,
	withValuesOf,
	type Figure,
	type Recalculated
} from './workbook-cells.ts';

const engine = engineOf();
const pricing = pricingOf(engine);
const madeAt = new Date('2026-03-02T08:00:00Z');

async function scheduleRowsOf(file: string, measures: Measures): Promise<OpeningRow[]> {
	const reading = await readTableFile(file, readFileSync(`fixtures/schedules/${file}`));
	if (!reading.ok) throw new Error(reading.message);
	return rowsOf(reading.sheets, engine, measures);
}

const written = (name: string, job: JobTakeoff, priced = true): Promise<Uint8Array> =>
	writeWorkbook({ name, engine, job, pricing: priced ? pricing : null, madeAt });

type Change = readonly [at: number, id: InputId, typed: string];

/** The rows with cells typed over. */
function changedRows(
	rows: readonly OpeningRow[],
	changes: readonly Change[],
	measures: Measures
): OpeningRow[] {
	return rows.map((row, at) => {
		const cells: Partial<Record<InputId, Cell>> = { ...row.cells };
		for (const [changed, id, typed] of changes) {
			if (changed !== at) continue;
			const input = inputOf(id);
			const read = readCell(input, typed, { measures, keys: keysFor(engine.book, input) });
			if (!read.ok) throw new Error(read.reason);
			cells[id] = read.cell;
		}
		return { ...row, cells };
	});
}

/** The file with the same cells typed over: figures as figures, words as words. */
async function changedFile(bytes: Uint8Array, changes: readonly Change[]): Promise<Uint8Array> {
	const workbook = await open(bytes);
	const sheet = workbook.getWorksheet('Openings');
	if (!sheet) throw new Error('no Openings');
	for (const [at, id, typed] of changes) {
		const kind = inputOf(id).kind;
		const cell = sheet.getCell(inputAddress(id, at));
		cell.value = typed === '' ? null : kind === 'key' || kind === 'text' ? typed : Number(typed);
	}
	return save(workbook);
}

const searched = ['barrel', 'bracket', 'drive'];
const choiceOf = (opening: OpeningTakeoff): unknown[] => searched.map((id) => opening.get(id));
const everyChoice = chosenQuantities.map(({ id }) => id);

/** Whether what was picked passes, as the engine has it: the flag is true, and a count is no less than by spacing. */
function pickPasses(opening: OpeningTakeoff, { id, flag, between }: Pick): boolean {
	const least = between ? opening.get(between[0]) : null;
	return opening.get(flag) === 1 && (least === null || Number(opening.get(id)) >= Number(least));
}

/** Nothing to pick: no motor, no springs; no hood that needs supports. */
const notNeeded = (opening: OpeningTakeoff, pick: Pick): boolean =>
	(pick.when !== undefined && opening.get(pick.when) !== 1) || withoutSupports(opening, pick);

const withoutSupports = (opening: OpeningTakeoff, { id }: Pick): boolean =>
	id === 'anchorStockHead' && opening.get('hoodSupports') === 0;

/** Null where a price is not known, as for a wall that the fixing has no anchor for. */
function exactOrNull(rule: string, read: (name: string) => Decimal | string | null): Decimal | null {
	try {
		return pricing.rules.evaluateExact(rule, read);
	} catch (error) {
		if (error instanceof Error && error.message.endsWith('is not known')) return null;
		throw error;
	}
}

/** The amounts of a job line by line, with the shares of full boxes that stand in the file. */
function priceFigure(opening: OpeningTakeoff, id: string, boxShare: string): Figure {
	if (!opening.computed) return '';
	const known = new Map<string, Decimal>();
	const read = (name: string): Decimal | string | null => {
		const amount = known.get(name);
		if (amount) return amount;
		if (name === 'openings') return new Decimal(opening.quantity);
		if (name === 'boxRounding') return new Decimal(boxShare);
		const definition = pricing.rules.definition(name);
		if (name.includes('.') || !definition) return null;
		const value = opening.get(name);
		return typeof value === 'number' ? new Decimal(inUnit(value, definition.unit).toFixed(9)) : value;
	};
	for (const rule of pricing.rules.order) {
		const value = exactOrNull(rule, read);
		if (rule === id) return value?.toNumber() ?? '';
		if (value) known.set(rule, value);
	}
	throw new Error(`${id} is not a rule of the price`);
}

function priceDifferences(openings: readonly OpeningTakeoff[], sheets: Recalculated): string[] {
	const columns = idColumns(sheets, 'Price');
	const boxAt = columns.get('boxRounding') ?? -1;
	return openings.flatMap((opening, at) => {
		const row = firstRow - 1 + at;
		return pricing.rules.order.flatMap((id) => {
			const text = textAt(sheets, 'Price', row, columns.get(id) ?? -1);
			const expected = priceFigure(opening, id, textAt(sheets, 'Price', row, boxAt));
			return agree(text, expected) ? [] : [`${opening.mark} ${id}: ${text} for ${String(expected)}`];
		});
	});
}

/** `#N/A` and the like, and LibreOffice's own. */
const errorText = /^(?:#[A-Z/0!?]+[!?]?|Err:\d+)$/u;

const errorsIn = (sheets: Recalculated): string[] =>
	[...sheets].flatMap(([name, rows]) =>
		rows.flatMap((row, r) =>
			row.flatMap((text, c) =>
				errorText.test(text) ? [`${name} row ${String(r + 1)} column ${String(c + 1)}: ${text}`] : []
			)
		)
	);

/** Sums of the job as the sheets have them, against the totals of the takeoff and of the price. */
function totalDifferences(job: JobTakeoff, sheets: Recalculated, priced: boolean): string[] {
	const totals = totalsOf(engine, job);
	const totalRow = firstRow - 1 + job.openings.length;
	const found: string[] = [];
	const check = (what: string, text: string, expected: Figure): void => {
		if (!agree(text, expected)) found.push(`${what}: ${text} for ${String(expected)}`);
	};
	const columns = { Takeoff: idColumns(sheets, 'Takeoff'), Labour: idColumns(sheets, 'Labour') };
	for (const { id, value } of totals.amounts) {
		const sheet = columns.Takeoff.has(id) ? 'Takeoff' : 'Labour';
		check(id, textAt(sheets, sheet, totalRow, columns[sheet].get(id) ?? -1), value);
	}
	check(
		'openings',
		textAt(sheets, 'Takeoff', totalRow, columns.Takeoff.get('openings') ?? -1),
		totals.openings
	);
	for (const { id, value } of [...totals.hoursByTask, ...totals.hoursByTrade])
		check(id, textAt(sheets, 'Labour', totalRow, columns.Labour.get(id) ?? -1), value);
	const anchors = sheets.get('Anchors') ?? [];
	for (const total of totals.anchors) {
		const row = anchors.find(([key]) => key === total.anchor) ?? [];
		const figures = [4, 5, 6, 7, 9, 10, 12].map((column) => Number(row[column]));
		const expected = [
			total.guides,
			total.brackets,
			total.hoodSupports,
			total.total,
			total.perBox,
			total.boxes,
			total.bits
		];
		if (figures.join() !== expected.join())
			found.push(`${total.anchor}: ${figures.join()} for ${expected.join()}`);
	}
	const item = (kind: string, key: string): readonly string[] =>
		anchors.find((row) => row[0] === kind && row[1] === key) ?? [];
	const amount = (list: readonly { id: string; value: number }[], id: string): number =>
		list.find((each) => each.id === id)?.value ?? 0;
	const kinds = [
		['Curtain area', totals.curtains, 'curtainArea'],
		['Guides, length', totals.guides, 'guideLength'],
		['Barrels, length', totals.barrels, 'bracketDistance'],
		['Bracket pairs, weight', totals.bracketPairs, 'bracketWeight'],
		['Drives, weight', totals.drives, 'driveWeight']
	] as const;
	for (const [kind, list, id] of kinds)
		for (const each of list) {
			check(`${kind} ${each.item}`, item(kind, each.item)[3] ?? '', amount(each.amounts, id));
			check(`${kind} ${each.item}, count`, item(kind, each.item)[4] ?? '', each.count);
		}
	for (const { id, value } of totals.consumables)
		check(id, item('To buy, waste included', id)[4] ?? '', value);
	for (const phase of totals.byPhase) {
		// A phase typed into the file stands among the others.
		const name = phase.phase === newPhase ? 'other phases' : phase.phase;
		const row = item('Phase: curtain area', name);
		check(`phase ${phase.phase}`, row[3] ?? '', amount(phase.amounts, 'curtainArea'));
		check(`phase ${phase.phase}, openings`, row[4] ?? '', phase.openings);
	}
	if (!priced) return found;
	const price = pricing.price(job);
	const lines = idColumns(sheets, 'Price');
	for (const { id } of price.lines)
		check(
			id,
			Number(textAt(sheets, 'Price', totalRow, lines.get(id) ?? -1)).toFixed(2),
			price.totals[id] ?? ''
		);
	for (const { phase, price: expected } of price.byPhase) {
		const row = (sheets.get('Price') ?? []).slice(totalRow + 3).find(([name]) => name === phase) ?? [];
		check(`price of phase ${phase}`, Number(row[2]).toFixed(2), expected);
	}
	return found;
}

const newPhase = 'new phase';

/** Small ones, of every sort, after which the app would choose the same. */
const smallChanges: readonly Change[] = [
	[0, 'openingWidth', '121.5'],
	[0, 'quantity', '6'],
	[2, 'openingHeight', '48.25'],
	[2, 'driveSide', 'right'],
	[4, 'headroom', '13'],
	[5, 'headroom', '9'],
	[6, 'guide', 'counter-between'],
	[8, 'sillHeight', '40'],
	[9, 'drawnFrom', 'farSide'],
	[10, 'hood', 'none'],
	[10, 'headroom', '24'],
	[12, 'driveSide', 'left'],
	[13, 'supplyVoltage', '240'],
	[14, 'feedLength', '360'],
	[16, 'finish', ''],
	[16, 'leftWallStrength', '3500'],
	[18, 'phase', newPhase],
	[19, 'openingWidth', '52'],
	[21, 'designPressure', '30'],
	[21, 'rightWallStrength', '4500'],
	[22, 'designPressure', '20'],
	[23, 'controls', 'none']
];

/** What moves loads, walls and lengths: after most of these the app would choose otherwise. */
const movedLoads: readonly Change[] = [
	[0, 'finishBuildUp', '1'],
	[2, 'driveSide', 'right'],
	[3, 'leftSubstrate', 'wood'],
	[4, 'designPressure', '30'],
	[5, 'operation', 'tubeMotor'],
	[10, 'curtain', 'heavy-grille'],
	[12, 'sillHeight', '100'],
	[13, 'designPressure', '30'],
	[14, 'feedLength', '4800'],
	[15, 'exposure', 'exterior'],
	[16, 'leftSubstrate', 'groutedBlock'],
	[19, 'openingWidth', '80'],
	[20, 'curtain', 'service-slat'],
	[21, 'leftWallStrength', '1200'],
	[22, 'designPressure', '50'],
	[24, 'leftSubstrate', 'hollowBlock']
];

const largeChange: Change = [0, 'openingWidth', '300'];

const pressedHard: Change = [21, 'designPressure', '60'];
const pressedLess: Change = [21, 'designPressure', '25'];

function among<T>(g: fc.GeneratorValue, list: readonly T[]): T {
	const found = list[g(fc.integer, { min: 0, max: list.length - 1 })];
	if (found === undefined) throw new Error('an empty list');
	return found;
}

/** What a cell may hold, of every sort that the input takes; plain figures, as they stand in the file. */
function randomText(g: fc.GeneratorValue, id: InputId): string {
	const input = inputOf(id);
	const figure = (least: number, most: number): string =>
		String(g(fc.integer, { min: least * 16, max: most * 16 }) / 16);
	const lengths: Partial<Record<InputId, readonly [number, number]>> = {
		openingWidth: [24, 360],
		openingHeight: [24, 240],
		feedLength: [0, 6000],
		leftWallThickness: [1, 12],
		rightWallThickness: [1, 12],
		finishBuildUp: [0, 3],
		drawingGuideDistance: [24, 360]
	};
	switch (input.kind) {
		case 'key':
			return among(g, keysFor(engine.book, input));
		case 'length':
			return figure(...(lengths[id] ?? [0, 60]));
		case 'pressure':
			return figure(1, 80);
		case 'strength':
			return among(g, ['1500', '2500', '4000', '58000']);
		case 'lineLoad':
			return figure(1, 300);
		case 'voltage':
			return among(g, ['24', '115', '208', '230', '277']);
		default:
			return '';
	}
}

const measured = inputs.filter(({ kind }) => kind !== 'text' && kind !== 'count');

/** An opening of any sort, and one cell of it typed over with another. */
const randomOpening = fc.gen().map((g) => {
	const typed: Typed = { mark: 'R', quantity: String(g(fc.integer, { min: 1, max: 4 })) };
	for (const { id, required } of measured) if (required || g(fc.boolean)) typed[id] = randomText(g, id);
	const { id } = among(g, measured);
	return { typed, change: [id, randomText(g, id)] as const };
});

const near = (a: number | string | null, b: number | string | null): boolean =>
	typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) <= 1e-9 * Math.abs(b) : a === b;

/** Calls inside calls. */
function depthOf(formula: string): number {
	let [depth, most, quoted] = [0, 0, false];
	for (const sign of formula) {
		if (sign === '"') quoted = !quoted;
		if (quoted) continue;
		if (sign === '(') depth++;
		if (sign === ')') depth--;
		most = Math.max(most, depth);
	}
	return most;
}

const hostile = ['=cmd()', '@SUM(1+1)', '<script>alert(1)</script>', '+1', '-1', `'"&<>`] as const;

describe.skipIf(needs('libreoffice'))('recalculated by LibreOffice', () => {
	const files = new Map<string, Uint8Array>();
	const jobs = new Map<string, JobTakeoff>();
	let results = new Map<string, Map<string, string[][]>>();
	let rows: readonly OpeningRow[] = [];

	const jobNamed = (name: string): JobTakeoff => {
		const job = jobs.get(name);
		if (!job) throw new Error(`no job ${name}`);
		return job;
	};
	const bytesNamed = (name: string): Uint8Array => files.get(name) ?? new Uint8Array();
	const sheetsNamed = (name: string): Recalculated => results.get(name) ?? new Map<string, string[][]>();

	/** Where a changed file does not show what the engine makes of the new inputs with the old choices and values. */
	const changeDifferences = (before: string, changed: string): readonly string[] => {
		const { openings } = jobNamed(changed);
		const read = withValuesOf(engine, jobNamed(before).openings, openings);
		const { found, compared } = engineDifferences(
			engine,
			openings,
			'imperial',
			sheetsNamed(changed),
			read,
			(opening, code) => read(opening, code) === 1
		);
		expect(compared).toBeGreaterThan(openings.length * engine.rules.order.length);
		return found;
	};

	beforeAll(async () => {
		const add = async (
			name: string,
			list: readonly OpeningRow[],
			measures: Measures,
			priced = true
		): Promise<void> => {
			const job = engine.takeoff(list, measures);
			jobs.set(name, job);
			files.set(name, await written(name, job, priced));
		};
		rows = await scheduleRowsOf('saltmarsh-pier.xlsx', 'imperial');
		await add('Saltmarsh Pier Market Hall', rows, 'imperial');
		await add('Kelpgate Ferry Terminal', await scheduleRowsOf('kelpgate-ferry.csv', 'metric'), 'metric');
		await add('for the client', rows, 'imperial', false);
		await add('no openings', [], 'imperial');
		await add(
			'unfinished',
			[
				typedRow({ ...openingA, mark: 'whole', quantity: '2' }),
				typedRow({ ...openingA, mark: 'no guide', guide: '' }),
				typedRow({ ...openingA, mark: 'no width', openingWidth: '' }),
				typedRow({ ...openingA, mark: 'no operation', operation: '' }),
				// 60 ft of heavy grille: no barrel of the demo book carries it
				typedRow({ ...openingB, mark: 'too wide', openingWidth: `60'` }),
				typedRow({ ...openingB, mark: 'too wide, by hand', openingWidth: `60'`, operation: 'chain' }),
				typedRow({ mark: 'bare' }),
				typedRow({ ...openingA, mark: 'whole', openingNumber: '1', leftSubstrate: 'wood', quantity: '' }),
				typedRow({ ...openingA, mark: 'alone', openingNumber: '2', quantity: '' })
			],
			'imperial'
		);
		await add(
			hostile[2],
			hostile.map((mark) => typedRow({ ...openingA, mark, phase: mark, note: mark, location: mark })),
			'imperial'
		);

		files.set('small changes', await changedFile(bytesNamed('Saltmarsh Pier Market Hall'), smallChanges));
		jobs.set('small changes', engine.takeoff(changedRows(rows, smallChanges, 'imperial'), 'imperial'));
		const random = fc
			.sample(randomOpening, { numRuns: 120, seed: 20_263 })
			.filter(({ typed }) => engine.takeoff([typedRow(typed)], 'imperial').openings[0]?.computed);
		const randomRows = random.map(({ typed }, i) => typedRow({ ...typed, mark: `R-${String(i)}` }));
		const randomChanges = random.map(({ change: [id, typed] }, i): Change => [i, id, typed]);
		await add('random', randomRows, 'imperial');
		files.set('random, changed', await changedFile(bytesNamed('random'), randomChanges));
		jobs.set(
			'random, changed',
			engine.takeoff(changedRows(randomRows, randomChanges, 'imperial'), 'imperial')
		);

		files.set('moved loads', await changedFile(bytesNamed('Saltmarsh Pier Market Hall'), movedLoads));
		jobs.set('moved loads', engine.takeoff(changedRows(rows, movedLoads, 'imperial'), 'imperial'));
		const pressed = changedRows(rows, [pressedHard], 'imperial');
		await add('pressed hard', pressed, 'imperial');
		files.set('pressed less', await changedFile(bytesNamed('pressed hard'), [pressedLess]));
		jobs.set('pressed less', engine.takeoff(changedRows(pressed, [pressedLess], 'imperial'), 'imperial'));
		files.set('large change', await changedFile(bytesNamed('Saltmarsh Pier Market Hall'), [largeChange]));
		jobs.set('large change', engine.takeoff(changedRows(rows, [largeChange], 'imperial'), 'imperial'));

		const falsified = await open(bytesNamed('Saltmarsh Pier Market Hall'));
		const cell = formulaCells(falsified).find(({ sheet, stored }) => sheet === 'Takeoff' && stored === 120.5);
		if (!cell) throw new Error('no cell with the guide distance 120.5');
		const { formula, sheet, address } = cell;
		const target = falsified.getWorksheet(sheet)?.getCell(address);
		if (target) target.value = { formula, result: 999 };
		files.set('falsified', await save(falsified));

		results = await recalculate([...files].map(([name, bytes]) => ({ name, bytes })));
	});

	describe.each(['Saltmarsh Pier Market Hall', 'Kelpgate Ferry Terminal'])('%s', (name) => {
		test('every rule, check, input and book value is the engine’s', () => {
			const job = jobNamed(name);
			const { compared, found } = engineDifferences(engine, job.openings, job.measures, sheetsNamed(name));
			expect(found).toEqual([]);
			// Every rule, every choice, and the inputs and book values they read.
			const least = engine.rules.order.length + everyChoice.length + 200;
			expect(compared).toBeGreaterThan(job.openings.length * least);
		});

		test('every formula cell of every sheet gives what is stored beside it', async () => {
			const cells = formulaCells(await open(bytesNamed(name)));
			expect(cells.length).toBeGreaterThan(jobNamed(name).openings.length * engine.rules.order.length);
			expect(differences(cells, sheetsNamed(name))).toEqual([]);
		});

		test('every rule has its column, and is live unless it calls a named function', async () => {
			const columns = ['Takeoff', 'Labour', 'Checks'].flatMap((sheet) =>
				[...idColumns(sheetsNamed(name), sheet)].map(([id, column]) => [id, { sheet, column }] as const)
			);
			const places = new Map(columns);
			expect(engine.rules.order.filter((id) => !places.has(id))).toEqual([]);
			const live = new Set(
				formulaCells(await open(bytesNamed(name)))
					.filter(({ row }) => row === firstRow - 1)
					.map(({ sheet, column }) => `${sheet} ${String(column)}`)
			);
			const values = engine.rules.order.filter((id) => {
				const { sheet, column } = places.get(id) ?? { sheet: '', column: -1 };
				return !live.has(`${sheet} ${String(column)}`);
			});
			expect(values.sort()).toEqual(
				engine.rules.order
					.filter((id) => /\b(?:spiralLength|coilLiftLimit)\(/u.test(engine.rules.rule(id)?.formula ?? ''))
					.sort()
			);
		});

		test('no formula is longer or deeper than a spreadsheet takes, and no sheet is wider', async () => {
			for (const { formula, column } of formulaCells(await open(bytesNamed(name)))) {
				expect(formula.length).toBeLessThanOrEqual(8192);
				expect(depthOf(formula)).toBeLessThanOrEqual(64);
				expect(column).toBeLessThan(16_384);
			}
		});

		test('the price is the pricing’s to the cent, row by row', () => {
			const job = jobNamed(name);
			const price = pricing.price(job);
			const columns = idColumns(sheetsNamed(name), 'Price');
			const found = price.marks.flatMap((mark, at) =>
				price.lines.flatMap(({ id }) => {
					const text = textAt(sheetsNamed(name), 'Price', firstRow - 1 + at, columns.get(id) ?? -1);
					return Number(text).toFixed(2) === mark.amounts?.[id] ? [] : [`${mark.mark} ${id}: ${text}`];
				})
			);
			expect(found).toEqual([]);
			expect(priceDifferences(job.openings, sheetsNamed(name))).toEqual([]);
		});

		test('sums by job, trade, task, fastener, item and phase are the totals’', () => {
			expect(totalDifferences(jobNamed(name), sheetsNamed(name), true)).toEqual([]);
		});

		test('the choices pass, and no check is without its live word', () => {
			const sheets = sheetsNamed(name);
			const columns = idColumns(sheets, 'Takeoff');
			jobNamed(name).openings.forEach((opening, at) => {
				const word = (id: string): string =>
					textAt(sheets, 'Takeoff', firstRow - 1 + at, columns.get(`${id}Passes`) ?? -1);
				expect([word('barrel'), word('bracket')]).toEqual(['passes', 'passes']);
				expect(word('drive')).toBe(opening.get('operation') === 'tubeMotor' ? 'passes' : 'not needed');
				const stops = opening.checks.filter(({ severity }) => severity === 'stop');
				for (const pick of picks) {
					const expected = notNeeded(opening, pick)
						? 'not needed'
						: pickPasses(opening, pick)
							? 'passes'
							: 'nothing fits';
					expect([opening.mark, pick.id, word(pick.id)]).toEqual([opening.mark, pick.id, expected]);
					if (expected === 'nothing fits') expect(stops.length).toBeGreaterThan(0);
				}
				expect(textAt(sheets, 'Takeoff', firstRow - 1 + at, columns.get('valuesStand') ?? -1)).toBe(
					'as exported'
				);
			});
			const checks = sheets.get('Checks') ?? [];
			const listed = checks.slice(checks.findIndex(([first]) => first === 'Opening') + 1);
			expect(listed.map((row) => row[4])).toEqual(listed.map(() => 'still so'));
			expect(listed).toHaveLength(jobNamed(name).openings.flatMap(({ checks: list }) => list).length);
		});
	});

	test('inputs changed a little in the file: everything follows as in the engine', () => {
		const job = jobNamed('small changes');
		const sheets = sheetsNamed('small changes');
		const before = jobNamed('Saltmarsh Pier Market Hall').openings;
		// The changes are such that the engine would choose the same again.
		const choices = (openings: readonly OpeningTakeoff[]): unknown[] =>
			openings.map((opening) => everyChoice.map((id) => opening.get(id)));
		expect(choices(job.openings)).toEqual(choices(before));
		expect(changeDifferences('Saltmarsh Pier Market Hall', 'small changes')).toEqual([]);
		expect(totalDifferences(job, sheets, false)).toEqual([]);
		expect(priceDifferences(job.openings, sheets)).toEqual([]);
		// The price with the old shares of full boxes is the only thing that waits for the app.
		const raised = (openings: readonly OpeningTakeoff[]) =>
			new Set(
				openings.flatMap(({ mark, openingId, checks }) =>
					checks.map(({ code }) => `${openingId ?? mark} ${code}`)
				)
			);
		const [old, now] = [raised(before), raised(job.openings)];
		const added = [...now].filter((each) => !old.has(each)).length;
		const cleared = [...old].filter((each) => !now.has(each)).length;
		const checks = sheets.get('Checks') ?? [];
		expect(added).toBeGreaterThan(3);
		expect(checks.some(([text]) => text?.endsWith(`not in the list: ${String(added)}.`) === true)).toBe(true);
		expect(checks.filter((row) => row[4] === 'no longer')).toHaveLength(cleared);
		expect(cleared).toBeGreaterThan(3);
	});

	test('a width changed much: the choice no longer passes, and the figures are those of the same choice', () => {
		const [at] = largeChange;
		const sheets = sheetsNamed('large change');
		const columns = idColumns(sheets, 'Takeoff');
		const changed = jobNamed('large change').openings;
		const before = jobNamed('Saltmarsh Pier Market Hall').openings;
		// The mark and the opening of it that takes its width.
		expect(changed.slice(0, 2).map(choiceOf)).not.toEqual(before.slice(0, 2).map(choiceOf));
		for (const row of [at, at + 1])
			expect(textAt(sheets, 'Takeoff', firstRow - 1 + row, columns.get('barrelPasses') ?? -1)).toBe(
				'choose again in the app'
			);
		expect(changeDifferences('Saltmarsh Pier Market Hall', 'large change')).toEqual([]);
	});

	describe('loads, walls and lengths moved in the file', () => {
		const word = (name: string, at: number, id: string): string =>
			textAt(
				sheetsNamed(name),
				'Takeoff',
				firstRow - 1 + at,
				idColumns(sheetsNamed(name), 'Takeoff').get(id) ?? -1
			);
		const chooseAgain = 'choose again in the app';

		test('the figures are those of the old choices with the new inputs', () => {
			expect(changeDifferences('Saltmarsh Pier Market Hall', 'moved loads')).toEqual([]);
		});

		test('“choose again in the app” stands exactly where the engine picks otherwise, or finds nothing', () => {
			const before = jobNamed('Saltmarsh Pier Market Hall').openings;
			const counted = { again: 0, stays: 0 };
			jobNamed('moved loads').openings.forEach((opening, at) => {
				const old = before[at];
				if (!old) throw new Error('a row more than before');
				// Another barrel, bracket or drive is said of those; what is picked after them is another story.
				if (choiceOf(opening).join() !== choiceOf(old).join()) {
					const words = searched.map((id) => word('moved loads', at, `${id}Passes`));
					expect([opening.mark, ...words]).toContain(chooseAgain);
					return;
				}
				for (const pick of picks) {
					const otherwise = opening.get(pick.id) !== old.get(pick.id) && !withoutSupports(opening, pick);
					const again = otherwise || (!notNeeded(opening, pick) && !pickPasses(opening, pick));
					const stands = word('moved loads', at, `${pick.id}Passes`);
					if (stands === 'nothing fits') {
						// Nothing it depends on was changed.
						expect([opening.mark, pick.id, pickPasses(opening, pick)]).toEqual([
							opening.mark,
							pick.id,
							false
						]);
						continue;
					}
					expect([opening.mark, pick.id, stands === chooseAgain]).toEqual([opening.mark, pick.id, again]);
					counted[again ? 'again' : 'stays']++;
				}
			});
			expect(counted.again).toBeGreaterThan(12);
			expect(counted.stays).toBeGreaterThan(150);
		});

		// S-201's right guide stands on studs with backing: 10 anchors by spacing. At 30 psf instead of the book's least
		// the pull is several times what it was.
		test('a guide that needs more anchors by load, though spacing asks for no more', () => {
			const at = 13;
			const [old, now] = [
				jobNamed('Saltmarsh Pier Market Hall').openings[at],
				jobNamed('moved loads').openings[at]
			];
			expect(now?.get('anchorsBySpacingRight')).toBe(old?.get('anchorsPerGuideRight'));
			expect(Number(now?.get('anchorsPerGuideRight'))).toBeGreaterThan(
				Number(old?.get('anchorsPerGuideRight'))
			);
			expect(word('moved loads', at, 'anchorsPerGuideRight')).toBe(String(old?.get('anchorsPerGuideRight')));
			expect(Number(word('moved loads', at, 'useGuideRight'))).toBeGreaterThan(1);
			expect(word('moved loads', at, 'guideDoesNotHoldRight')).toBe('');
			expect(word('moved loads', at, 'anchorsPerGuideRightPasses')).toBe(chooseAgain);
		});

		test('a choice that still passes stays, though the app would now choose less', () => {
			const [at] = pressedLess;
			const [old, now] = [jobNamed('pressed hard').openings[at], jobNamed('pressed less').openings[at]];
			for (const side of ['Left', 'Right']) {
				const id = `anchorsPerGuide${side}`;
				expect(Number(now?.get(id))).toBeLessThan(Number(old?.get(id)));
				expect(word('pressed less', at, id)).toBe(String(old?.get(id)));
				expect(word('pressed less', at, `${id}Passes`)).toBe('passes');
			}
			expect(changeDifferences('pressed hard', 'pressed less')).toEqual([]);
		});

		test.each(['small changes', 'moved loads'])(
			'%s: a value whose figures changed asks to open the job in the app again',
			(name) => {
				const before = jobNamed('Saltmarsh Pier Market Hall').openings;
				const read = withValuesOf(engine, before, jobNamed(name).openings);
				const figures = valueRules(engine).flatMap((id) => engine.rules.namesIn(id));
				const said = { again: 0, stands: 0 };
				jobNamed(name).openings.forEach((opening, at) => {
					const same = figures.every((id) => near(read(opening, id), before[at]?.get(id) ?? null));
					expect([opening.mark, word(name, at, 'valuesStand')]).toEqual([
						opening.mark,
						same ? 'as exported' : 'open again in the app'
					]);
					said[same ? 'stands' : 'again']++;
				});
				expect(said.again).toBeGreaterThan(1);
				expect(said.stands).toBeGreaterThan(5);
			}
		);
	});

	test('random openings: every formula cell is the engine’s, whatever is not known', async () => {
		const { openings } = jobNamed('random');
		expect(openings.length).toBeGreaterThan(80);
		const sheets = sheetsNamed('random');
		expect(engineDifferences(engine, openings, 'imperial', sheets).found).toEqual([]);
		expect(differences(formulaCells(await open(bytesNamed('random'))), sheets)).toEqual([]);
	});

	test('random openings with one cell typed over at random: the engine’s, with the choices that were', () => {
		expect(changeDifferences('random', 'random, changed')).toEqual([]);
	});

	test('a stored result that is false comes back right, and is found where nothing recalculates', async () => {
		const cells = formulaCells(await open(bytesNamed('falsified')));
		const found = differences(cells, sheetsNamed('falsified'));
		expect(found).toHaveLength(1);
		expect(found[0]).toContain('stored 999, recalculated "120.5"');
	});

	test('rows that are not complete, or for which nothing passes, show nothing that was not worked out', () => {
		const job = jobNamed('unfinished');
		const sheets = sheetsNamed('unfinished');
		expect(engineDifferences(engine, job.openings, 'imperial', sheets).found).toEqual([]);
		expect(totalDifferences(job, sheets, true)).toEqual([]);
		const columns = idColumns(sheets, 'Takeoff');
		const words = job.openings.map((_, at) =>
			textAt(sheets, 'Takeoff', firstRow - 1 + at, columns.get('barrelPasses') ?? -1)
		);
		expect(words).toEqual([
			'passes',
			'inputs missing',
			'inputs missing',
			'inputs missing',
			'choose again in the app',
			'choose again in the app',
			'inputs missing',
			'passes',
			'passes'
		]);
		// One of the two is a row of its own.
		expect(textAt(sheets, 'Takeoff', firstRow - 1, columns.get('openings') ?? -1)).toBe('1');
	});

	test('no cell of any file is an error', () => {
		for (const [name, sheets] of results) expect([name, ...errorsIn(sheets)]).toEqual([name]);
	});

	test('what a person typed stays text, whatever it begins with', async () => {
		const name = hostile[2];
		const workbook = await open(bytesNamed(name));
		hostile.forEach((mark, at) => {
			for (const id of ['mark', 'phase', 'location', 'note'] as const) {
				const cell = workbook.getWorksheet('Openings')?.getCell(inputAddress(id, at));
				expect(cell?.value).toBe(mark);
				expect(cell?.formula).toBeUndefined();
			}
			const row = firstRow - 1 + at;
			expect(textAt(sheetsNamed(name), 'Openings', row, 0)).toBe(mark);
			expect(textAt(sheetsNamed(name), 'Takeoff', row, 0)).toBe(mark);
		});
		expect(sheetsNamed(name).get('Openings')?.[0]?.[0]).toBe(`${name}: openings`);
		expect(formulaCells(workbook).filter(({ formula }) => /cmd|alert|^@|^\+/u.test(formula))).toEqual([]);
		expect(totalDifferences(jobNamed(name), sheetsNamed(name), true)).toEqual([]);
		expect(differences(formulaCells(workbook), sheetsNamed(name))).toEqual([]);
	});

	test('without a price nothing of the price is in the file', async () => {
		const sheets = sheetsNamed('for the client');
		expect([...sheets.keys()]).not.toContain('Price');
		const texts = [...sheets].flatMap(([sheet, list]) => list.flat().map((text) => [sheet, text] as const));
		// The rate of a spring is a torque.
		const named = texts.filter(([, text]) => !text.startsWith('Spring rate'));
		expect(named.filter(([, text]) => /price|cost|USD|\brate\b|profit|overhead|burden/iu.test(text))).toEqual(
			[]
		);
		// Figures of the price book that stand for nothing else in the technical book.
		const technical = new Set(
			JSON.stringify([engine.book, motorCurrents, conductors, standardBreakers])
				.match(/(?<=")\d+(?:\.\d+)?(?=")/gu)
				?.map(Number)
		);
		const prices =
			JSON.stringify(pricing.prices)
				.match(/(?<=")\d+(?:\.\d+)?(?=")/gu)
				?.map(Number) ?? [];
		const telling = new Set(prices.filter((figure) => !technical.has(figure) && figure > 0));
		expect(telling.size).toBeGreaterThan(40);
		const book = (sheets.get('Shop book') ?? []).flat();
		expect(book.filter((text) => text !== '' && telling.has(Number(text)))).toEqual([]);
		const workbook = await open(bytesNamed('for the client'));
		const constants = new Set(technicalConstants(engine.book).map(({ id }) => `shop.${id}`));
		expect(
			workbook.definedNames.model.map(({ name }) => name).filter((name) => !constants.has(name))
		).toEqual([]);
	});
});

test('the sheets stand in order, printed and frozen as they are to be', async () => {
	const job = engine.takeoff([typedRow(openingA)], 'imperial');
	const parts = materialList(engine, job);
	const workbook = await open(await writeWorkbook({ name: 'A & B &D', engine, job, pricing, parts, madeAt }));
	expect(workbook.worksheets.map(({ name }) => name)).toEqual([
		'Openings',
		'Takeoff',
		'Anchors',
		'Labour',
		'Price',
		'Checks',
		'Shop book',
		'Material list'
	]);
	for (const { pageSetup, views, headerFooter } of workbook.worksheets) {
		expect(pageSetup).toMatchObject({ orientation: 'landscape', fitToPage: true, fitToHeight: 0 });
		expect(pageSetup.printTitlesRow).toMatch(/^\d+:\d+$/u);
		expect(views[0]).toMatchObject({ state: 'frozen', showGridLines: false });
		// An ampersand is doubled there, or it would begin a code.
		expect(headerFooter.oddHeader).toContain('A && B &&D');
		expect(headerFooter.oddFooter).toContain('Page &P of &N');
		expect(headerFooter.oddFooter?.length).toBeLessThan(256);
	}
	expect(workbook.getWorksheet('Material list')?.getCell('A5').value).toBe(parts[0]?.partId);
});

test('the Openings sheet read as a schedule gives the same rows again', async () => {
	const rows = await scheduleRowsOf('saltmarsh-pier.xlsx', 'imperial');
	const bytes = await written('Saltmarsh Pier Market Hall', engine.takeoff(rows, 'imperial'));
	const reading = await readTableFile('workbook.xlsx', bytes);
	if (!reading.ok) throw new Error(reading.message);
	const again = rowsOf(reading.sheets, engine, 'imperial');
	const job = engine.takeoff(rows, 'imperial');
	const amounts = (cell: Cell | undefined): unknown =>
		typeof cell === 'object' && cell !== null ? cell.amount : typedText(cell);
	expect(again.map(({ cells }) => inputs.map(({ id }) => amounts(cells[id])))).toEqual(
		job.openings.map((opening) => inputs.map(({ id }) => amounts(opening.cell(id))))
	);
});
