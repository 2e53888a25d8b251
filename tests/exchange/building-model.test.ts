/**
 * Building models (IFC, ISO 16739): sizes against hand arithmetic, and files that are wrong. The models in
 * `fixtures/models` are invented and written by hand after the standard; its README is the plan they are read against.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { IfcAPI } from 'web-ifc';
import { readReal, sizeOf } from '../../src/lib/exchange/building-model/exact-size.ts';
import { ModelLines } from '../../src/lib/exchange/building-model/model-lines.ts';
import { modelOpenings } from '../../src/lib/exchange/building-model/model-openings.ts';
import {
	chosenRows,
	modelCells,
	modelRows,
	sizeText
} from '../../src/lib/exchange/building-model/model-rows.ts';
import type { BuildingModel, ModelOpening } from '../../src/lib/exchange/building-model/model.ts';
import { readModel, type ModelLimits } from '../../src/lib/exchange/building-model/read-model.ts';
import { writingProblem } from '../../src/lib/exchange/building-model/step-writing.ts';
import { parseLength } from '../../src/lib/quantity/length.ts';
import { zip } from './zip-writer.ts';

const bytesOf = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, 'utf8'));

async function modelOf(name: string, bytes: Uint8Array): Promise<BuildingModel> {
	const reading = await readModel(name, bytes);
	if (!reading.ok) throw new Error(reading.message);
	return reading.model;
}

const fixture = (name: string): Promise<BuildingModel> =>
	modelOf(name, new Uint8Array(readFileSync(resolve('fixtures/models', name))));

async function refusal(bytes: Uint8Array, limits: Partial<ModelLimits> = {}): Promise<string> {
	const reading = await readModel('trap.ifc', bytes, limits);
	if (reading.ok) throw new Error('it was read');
	expect(reading.message).toMatch(/^trap\.ifc is not read: .*\.$/su);
	return reading.message;
}

/** A size in nanometres: 1 mm is 1 000 000 nm, 1 in is 25.4 mm. */
const mm = (count: number): number => Math.round(count * 10_000) * 100;
const inch = (sixtyFourths: number): number => sixtyFourths * 396_875;

const at = ({ openings }: BuildingModel, line: number): ModelOpening => {
	const found = openings.find((opening) => opening.line === line);
	if (!found) throw new Error(`#${line} is not there`);
	return found;
};
const sizes = (model: BuildingModel, line: number): [number | null, number | null] => {
	const { width, height } = at(model, line);
	return [width, height];
};

interface ModelParts {
	readonly schema?: string;
	readonly units?: string;
	readonly data: string;
}

const metre = '#3=IFCSIUNIT(*,.LENGTHUNIT.,$,.METRE.);';

/** A model with one project; what matters is in `data`. */
const model = ({ schema = 'IFC4', units = metre, data }: ModelParts): string =>
	[
		'ISO-10303-21;',
		'HEADER;',
		"FILE_DESCRIPTION((''),'2;1');",
		"FILE_NAME('','',(''),(''),'','','');",
		`FILE_SCHEMA(('${schema}'));`,
		'ENDSEC;',
		'DATA;',
		"#1=IFCPROJECT('0Project00000000000001',$,'P',$,$,$,$,(),#2);",
		'#2=IFCUNITASSIGNMENT((#3));',
		units,
		data,
		'ENDSEC;',
		'END-ISO-10303-21;',
		''
	].join('\n');

const door = (line: number, height: string, width: string): string =>
	`#${line}=IFCDOOR('0Door${String(line).padStart(17, '0')}',$,'Door ${line}',$,$,$,$,'T-${line}',${height},${width},.DOOR.,$,$);`;

describe('models written by hand', () => {
	it('in millimetres: doors, a filled opening, an empty one, a window, types, storeys, properties', async () => {
		const read = await fixture('market-hall-millimetres.ifc');
		expect([read.schema, read.unit]).toEqual(['IFC4', 'MILLIMETRE']);
		// #50 and #62 are filled by doors and stand for no line of their own.
		expect(
			read.openings.map(({ line, kind, tag, name, type, storey, exterior }) => [
				line,
				kind,
				tag,
				name,
				type,
				storey,
				exterior
			])
		).toEqual([
			[60, 'door', 'D-101', 'Grille at the stalls', 'Grille G1', 'Ground floor', false],
			[61, 'door', 'D-102', 'Grille at the ice store', '', 'Ground floor', null],
			[70, 'opening', 'O-7', "Servery à la carte, chef's side", '', 'Ground floor', null],
			[80, 'window', 'S-201', 'Ticket counter', '', 'Gallery', null],
			[81, 'door', 'D-201', 'Café', 'Shutter of the bar', 'Gallery', null],
			[82, 'door', 'D-202', 'Grille at the stair', 'Grille G1', 'Gallery', true],
			[83, 'door', 'D-203', 'Grille at the lift', '', 'Gallery', null]
		]);
		expect(at(read, 60).globalId).toBe('0SaltmarshPierHall0060');
		// Height stands before width in IfcDoor. 3048 mm = 120 in = 120 × 64 sixty-fourths; 2438.4 mm = 96 in.
		expect(sizes(read, 60)).toEqual([inch(120 * 64), inch(96 * 64)]);
		expect(sizes(read, 61)).toEqual([mm(3600), mm(2700)]);
		expect(at(read, 61).notes).toEqual(['Size from the shape of the opening it fills.']);
		expect(sizes(read, 70)).toEqual([mm(4000), mm(1250.5)]);
		expect(sizes(read, 80)).toEqual([mm(1800), mm(1200)]);
		expect(sizes(read, 81)).toEqual([mm(1830), mm(2100)]);
		expect(at(read, 82).notes).toEqual(['Fire rating in the model: 60 min.']);
		// 2012.3456 mm is 4.4 µm short of 2012.35 mm and 189 µm past 5070/64 in (2012.156 25 mm): within 1 µm of neither.
		expect(sizes(read, 83)).toEqual([null, mm(2438.4)]);
		expect(at(read, 83).notes[0]).toMatch(/^The model’s width is 2012\.3456 mm, finer than/u);
	});

	it('in metres: the noise of floats, base quantities in a unit of their own, a space, a slab, a recess', async () => {
		const read = await fixture('ferry-terminal-metres.ifc');
		expect([read.schema, read.unit]).toEqual(['IFC2X3', 'METRE']);
		expect(read.openings.map(({ line }) => line)).toEqual([40, 41, 42, 43, 51, 54]);
		// 3.048 m × 1 000 000 000 nm/m.
		expect(sizes(read, 40)).toEqual([3_048_000_000, 2_400_000_000]);
		expect([at(read, 40).storey, at(read, 40).space, at(read, 40).type]).toEqual([
			'Quay level',
			'Baggage hall',
			'Shutter S2'
		]);
		expect(sizes(read, 42)).toEqual([mm(3048), mm(2100)]);
		expect([at(read, 42).tag, at(read, 42).storey, at(read, 42).space]).toEqual(['', 'Quay level', '']);
		expect(sizes(read, 43)).toEqual([mm(4250), mm(2750)]);
		expect(at(read, 43).notes).toEqual(['Size from the base quantities.']);
		expect(sizes(read, 51)).toEqual([null, null]);
		expect(at(read, 51).notes).toEqual([
			'The model gives no width.',
			'The model gives no height.',
			'It goes through IfcSlab in the model, not a wall.'
		]);
		expect(at(read, 54).notes).toContain('A recess in the model, not a hole through the wall.');
		expect(at(read, 54).storey).toBe('Quay level');
	});

	it('a door is on the storey it is listed for, whatever its opening goes through', async () => {
		const data = [
			`#11=IFCBUILDINGSTOREY('0Storey000000000000011',$,'Ground floor',$,$,$,$,$,.ELEMENT.,0.);`,
			`#12=IFCBUILDINGSTOREY('0Storey000000000000012',$,'Gallery',$,$,$,$,$,.ELEMENT.,4.2);`,
			`#20=IFCWALL('0Wall00000000000000020',$,'Two storeys high',$,$,$,$,'W-1',.STANDARD.);`,
			`#21=IFCOPENINGELEMENT('0Opening00000000000021',$,'Of the door',$,$,$,$,$,.OPENING.);`,
			`#22=IFCOPENINGELEMENT('0Opening00000000000022',$,'Empty',$,$,$,$,$,.OPENING.);`,
			`#23=IFCRELVOIDSELEMENT('0Voids0000000000000023',$,$,$,#20,#21);`,
			`#24=IFCRELVOIDSELEMENT('0Voids0000000000000024',$,$,$,#20,#22);`,
			door(30, '2.', '3.'),
			`#31=IFCRELFILLSELEMENT('0Fills0000000000000031',$,$,$,#21,#30);`,
			`#32=IFCRELCONTAINEDINSPATIALSTRUCTURE('0Contained000000000032',$,$,$,(#20),#11);`,
			`#33=IFCRELCONTAINEDINSPATIALSTRUCTURE('0Contained000000000033',$,$,$,(#30),#12);`
		].join('\n');
		const read = await modelOf('m.ifc', bytesOf(model({ data })));
		expect(read.openings.map(({ line, storey }) => [line, storey])).toEqual([
			[22, 'Ground floor'],
			[30, 'Gallery']
		]);
	});

	it('sizes of shapes, whichever way the wall and the rectangle are turned; base quantities go before them', async () => {
		const opening = (line: number, profile: string): string[] => [
			`#${line}=IFCOPENINGELEMENT('0Opening${String(line).padStart(14, '0')}',$,$,$,$,#17,#${line + 1},$,.OPENING.);`,
			`#${line + 1}=IFCPRODUCTDEFINITIONSHAPE($,$,(#${line + 2}));`,
			`#${line + 2}=IFCSHAPEREPRESENTATION($,'Body','SweptSolid',(#${line + 3}));`,
			`#${line + 3}=IFCEXTRUDEDAREASOLID(#${line + 4},#16,#18,0.2);`,
			`#${line + 4}=IFCRECTANGLEPROFILEDEF(.AREA.,$,${profile});`
		];
		const data = [
			'#11=IFCCARTESIANPOINT((0.,0.,0.));',
			// The wall: its z is the world’s x and its x the world’s y, so that its y = z × x stands upright.
			'#12=IFCDIRECTION((1.,0.,0.));',
			'#13=IFCDIRECTION((0.,1.,0.));',
			'#14=IFCAXIS2PLACEMENT3D(#11,#12,#13);',
			'#15=IFCLOCALPLACEMENT($,#14);',
			'#16=IFCAXIS2PLACEMENT3D(#11,$,$);',
			'#17=IFCLOCALPLACEMENT(#15,#16);',
			'#18=IFCDIRECTION((0.,0.,1.));',
			'#19=IFCCARTESIANPOINT((0.,0.));',
			'#20=IFCAXIS2PLACEMENT2D(#19,$);',
			// Turned by a quarter in its plane: its first edge stands upright.
			'#21=IFCDIRECTION((0.,1.));',
			'#22=IFCAXIS2PLACEMENT2D(#19,#21);',
			...opening(30, '#20,3.,2.'),
			...opening(40, '#22,2.1,3.1'),
			...opening(50, '#20,3.,2.'),
			`#60=IFCELEMENTQUANTITY('0Quantities00000000060',$,'Qto_OpeningElementBaseQuantities',$,$,(#61,#62));`,
			`#61=IFCQUANTITYLENGTH('Width',$,$,2.5,$);`,
			`#62=IFCQUANTITYLENGTH('Height',$,$,1.5,$);`,
			`#63=IFCRELDEFINESBYPROPERTIES('0Defines00000000000063',$,$,$,(#50),#60);`
		].join('\n');
		const read = await modelOf('m.ifc', bytesOf(model({ data })));
		expect(sizes(read, 30)).toEqual([mm(3000), mm(2000)]);
		expect(sizes(read, 40)).toEqual([mm(3100), mm(2100)]);
		expect(sizes(read, 50)).toEqual([mm(2500), mm(1500)]);
		expect([30, 40, 50].map((line) => at(read, line).notes)).toEqual([
			['Size from the shape.'],
			['Size from the shape.'],
			['Size from the base quantities.']
		]);
	});

	it('in feet of 0.3048 m', async () => {
		const read = await fixture('market-hall-feet.ifc');
		expect(read.unit).toBe('FOOT');
		expect(sizes(read, 20)).toEqual([inch(120 * 64), inch(96 * 64)]);
		// 12.541 666… ft = 150.5 in; 6.833… ft = 82 in.
		expect(sizes(read, 21)).toEqual([inch(150.5 * 64), inch(82 * 64)]);
		// 7 ft + 1/64 in = 84 in + 1/64 in; 1/64 in = 0.001 302 083 3… ft.
		expect(sizes(read, 22)).toEqual([inch(36 * 64), inch(84 * 64 + 1)]);
	});

	it('in inches of 25.4 mm', async () => {
		const read = await fixture('market-hall-inches.ifc');
		expect(read.unit).toBe('INCH');
		expect(sizes(read, 20)).toEqual([inch(120 * 64), inch(96.5 * 64)]);
		expect(sizes(read, 21)).toEqual([inch(150 * 64), inch(33 * 64 + 1)]);
	});

	it('in centimetres', async () => {
		const read = await fixture('ferry-terminal-centimetres.ifc');
		expect(read.unit).toBe('CENTIMETRE');
		expect(sizes(read, 20)).toEqual([mm(4125.5), mm(2750)]);
	});
});

describe('numbers and units', () => {
	it.each([
		['2100.', 2100n, 1n],
		['-2.5', -25n, 10n],
		['2.1E3', 21_000n, 10n],
		['1.E-02', 1n, 100n],
		['2100', 2100n, 1n]
	])('reads %s exactly', (text, n, d) => {
		const read = readReal(text);
		expect(read && read.n * d === n * read.d).toBe(true);
	});

	it.each(['', 'NaN', '.5', '1.5.3', 'Infinity', '0x10', '1E4000'])('takes %j for no number', (text) => {
		expect(readReal(text)).toBeNull();
	});

	it('takes a size for the round one within 1 µm, and for nothing further off', () => {
		const nanometre = { n: 1n, d: 1n };
		const size = (nm: bigint) => sizeOf({ n: nm, d: 1n }, nanometre);
		expect(size(2_100_001_000n)).toEqual({ ok: true, nm: 2_100_000_000 });
		expect(size(2_100_001_001n)).toMatchObject({ ok: false });
		// 5291/64 in = 2 099 865 625 nm; 2 099.87 mm is 4.4 µm off.
		expect(size(2_099_865_626n)).toEqual({ ok: true, nm: 2_099_865_625 });
	});

	it('keeps single precision up to 16 m', () => {
		fc.assert(
			fc.property(fc.integer({ min: 1, max: 1_600_000 }), (hundredths) => {
				const single = Math.fround(hundredths / 100);
				const value = readReal(single.toFixed(12));
				const read = value && sizeOf(value, { n: 1_000_000n, d: 1n });
				expect(read).toEqual({ ok: true, nm: hundredths * 10_000 });
			})
		);
	});

	it('takes 1 km, and nothing longer', () => {
		const kilometre = { n: 1_000_000_000_000n, d: 1n };
		expect(sizeOf({ n: 1n, d: 1n }, kilometre)).toEqual({ ok: true, nm: 1_000_000_000_000 });
		expect(sizeOf({ n: 100_000_001n, d: 100_000_000n }, kilometre)).toMatchObject({ ok: false });
	});

	// Prefixes of the International System of Units (ISO 80000-1), as IfcSIPrefix (ISO 16739) names them.
	it.each([
		['KILO', '0.003', 3000],
		['HECTO', '0.03', 3000],
		['DECA', '0.3', 3000],
		['DECI', '30.', 3000],
		['CENTI', '300.', 3000],
		['MILLI', '3000.', 3000],
		['MICRO', '3000000.', 3000],
		['NANO', '3000000000.', 3000]
	])('reads a width in metres with %s', async (prefix, width, millimetres) => {
		const units = `#3=IFCSIUNIT(*,.LENGTHUNIT.,.${prefix}.,.METRE.);`;
		const read = await modelOf('m.ifc', bytesOf(model({ units, data: door(10, width, width) })));
		expect(sizes(read, 10)).toEqual([mm(millimetres), mm(millimetres)]);
	});

	it.each([
		['0.', 'is not above 0'],
		['-1.2', 'is not above 0'],
		['1.E9', 'is longer than 1 km'],
		['9.9E999', 'is longer than 1 km'],
		['99999999999999', 'is longer than 1 km']
	])('leaves a width of %s blank and says why', async (width, reason) => {
		const read = await modelOf('m.ifc', bytesOf(model({ data: door(10, '2.', width) })));
		expect(sizes(read, 10)).toEqual([null, mm(2000)]);
		expect(at(read, 10).notes).toEqual([`The model’s width ${reason}; it is left blank.`]);
	});

	it.each([
		['none', '#3=IFCSIUNIT(*,.AREAUNIT.,$,.SQUARE_METRE.);', /names no unit of length/u],
		['a missing line', '', /names no unit of length/u],
		['one of mass', '#3=IFCSIUNIT(*,.LENGTHUNIT.,$,.GRAM.);', /unit of length is GRAM, which is none/u],
		[
			'no factor',
			"#3=IFCCONVERSIONBASEDUNIT($,.LENGTHUNIT.,'FOOT',$);",
			/does not say how long .* \(FOOT\) is/u
		],
		[
			'a factor of 0',
			`#3=IFCCONVERSIONBASEDUNIT($,.LENGTHUNIT.,'FOOT',#4);#4=IFCMEASUREWITHUNIT(IFCLENGTHMEASURE(0.),#5);#5=IFCSIUNIT(*,.LENGTHUNIT.,$,.METRE.);`,
			/unit of length \(FOOT\) is not above 0/u
		],
		[
			'one defined by itself',
			`#3=IFCCONVERSIONBASEDUNIT($,.LENGTHUNIT.,'FOOT',#4);#4=IFCMEASUREWITHUNIT(IFCLENGTHMEASURE(1.),#3);`,
			/missing or defined by itself/u
		]
	])('refuses a unit of length that is %s', async (_, units, reason) => {
		expect(await refusal(bytesOf(model({ units, data: door(10, '2.', '3.') })))).toMatch(reason);
	});

	it('gives back every size of 200 random models, whatever their unit', async () => {
		/** Nanometres in a unit, and the lines that make it the model's. */
		const units = [
			{ nm: 1_000_000n, lines: '#3=IFCSIUNIT(*,.LENGTHUNIT.,.MILLI.,.METRE.);' },
			{ nm: 10_000_000n, lines: '#3=IFCSIUNIT(*,.LENGTHUNIT.,.CENTI.,.METRE.);' },
			{ nm: 1_000_000_000n, lines: metre },
			{
				nm: 304_800_000n,
				lines: `#3=IFCCONVERSIONBASEDUNIT($,.LENGTHUNIT.,'FOOT',#4);#4=IFCMEASUREWITHUNIT(IFCLENGTHMEASURE(0.3048),#5);#5=IFCSIUNIT(*,.LENGTHUNIT.,$,.METRE.);`
			},
			{
				nm: 25_400_000n,
				lines: `#3=IFCCONVERSIONBASEDUNIT($,.LENGTHUNIT.,'INCH',#4);#4=IFCMEASUREWITHUNIT(IFCLENGTHMEASURE(25.4),#5);#5=IFCSIUNIT(*,.LENGTHUNIT.,.MILLI.,.METRE.);`
			}
		];
		const size = fc.oneof(
			fc.integer({ min: 1, max: 1_500_000 }).map((count) => count * 10_000),
			fc.integer({ min: 1, max: 40_000 }).map((count) => count * 396_875)
		);
		/** As programs write numbers: a double, or a long decimal. */
		const writings = [
			(nm: number, unit: bigint) => {
				const text = String(nm / Number(unit));
				return text.includes('.') || text.includes('e') ? text.replace('e', 'E') : `${text}.`;
			},
			(nm: number, unit: bigint) => (nm / Number(unit)).toFixed(12),
			(nm: number, unit: bigint) => (nm / Number(unit)).toExponential(15).replace('e', 'E')
		];
		await fc.assert(
			fc.asyncProperty(
				fc.constantFrom(...units),
				fc.constantFrom('IFC2X3', 'IFC4', 'IFC4X3'),
				fc.array(fc.tuple(size, size, fc.constantFrom(...writings)), { minLength: 1, maxLength: 20 }),
				async (unit, schema, wanted) => {
					const api = new IfcAPI();
					await api.Init();
					const lines = wanted.map(([width, height, write], i) => {
						const text = (nm: number): string => write(nm, unit.nm);
						return door(10 + i, text(height), text(width)).replace(
							schema === 'IFC2X3' ? ',.DOOR.,$,$)' : /$^/u,
							')'
						);
					});
					const bytes = bytesOf(model({ schema, units: unit.lines, data: lines.join('\n') }));
					expect(writingProblem(bytes)).toBeNull();
					const read = modelOpenings(new ModelLines(api, bytes), schema);
					api.Dispose();
					expect(read.openings.map(({ width, height }) => [width, height])).toEqual(
						wanted.map(([width, height]) => [width, height])
					);
				}
			),
			{ numRuns: 200 }
		);
	});
});

describe('models that are wrong', () => {
	const good = model({ data: door(10, '2.', '3.') });

	it.each([
		['a zip', zip([{ name: 'model.ifc', content: good }]), /zip archive \(\.ifczip.*unpack it/u],
		['XML', bytesOf('<?xml version="1.0"?><ifcXML/>'), /written as XML; export it as \.ifc/u],
		['a table', bytesOf('Mark,Width\nA,3'), /does not begin with ISO-10303-21/u],
		['nothing', new Uint8Array(), /does not begin with ISO-10303-21/u],
		[
			'another schema',
			bytesOf(good.replace('IFC4', 'AUTOMOTIVE_DESIGN')),
			/its schema is AUTOMOTIVE_DESIGN; export it as IFC2X3/u
		],
		['an early draft', bytesOf(good.replace('IFC4', 'IFC4X1')), /its schema is IFC4X1/u],
		['no schema', bytesOf(good.replace(/FILE_SCHEMA.*/u, '')), /names no schema/u],
		['an empty schema', bytesOf(good.replace("('IFC4')", '()')), /names no schema/u],
		['no project', bytesOf(good.replace(/#1=.*/u, '')), /has no project/u],
		['no unit assignment', bytesOf(good.replace('(),#2)', '(),$)')), /names no unit of length/u],
		['two units of length', bytesOf(good.replace('(#3)', '(#3,#3)')), /names 2 units of length/u],
		['nothing to bring in', bytesOf(model({ data: '' })), /no door, window or opening/u],
		[
			'cut off in a line',
			bytesOf(good.slice(0, good.indexOf(',.DOOR.'))),
			/ends in the middle of the statement in line 11/u
		],
		['cut off between lines', bytesOf(good.slice(0, good.indexOf('ENDSEC;\nEND'))), /its end .* is missing/u],
		['a text without end', bytesOf(good.replace("'T-10'", "'T-10")), /line \d+/u],
		[
			'a statement without ;',
			bytesOf(good.replace('METRE.);', 'METRE.)')),
			/the ";" after line 10 is missing/u
		],
		[
			'a bracket too few',
			bytesOf(good.replace('$,$);\nENDSEC;\nEND', '$,$;\nENDSEC;\nEND')),
			/line 11 has a "\(" too many/u
		],
		[
			'a size that is no number',
			bytesOf(good.replace(',2.,3.,', ',NaN,3.,')),
			/line 11 holds something that does not belong there: NaN/u
		],
		[
			'a number without its first digit',
			bytesOf(good.replace(',2.,3.,', ',.5,3.,')),
			/line 11 holds something/u
		],
		['small letters', bytesOf(good.replace('IFCDOOR', 'IfcDoor')), /line 11 holds something/u],
		[
			'a line number that is too high',
			bytesOf(good.replace('#10=', '#99999999999=')),
			/from 1 to 4294967295/u
		],
		[
			'the same number twice',
			bytesOf(good.replace('ENDSEC;\nEND', `${door(10, '1.', '1.')}\nENDSEC;\nEND`)),
			/#10 stands for two lines/u
		],
		[
			'brackets in brackets',
			bytesOf(model({ data: `#9=IFCDOOR(${'('.repeat(100_000)}${')'.repeat(100_000)});` })),
			/more than 64 brackets/u
		],
		['a comment without end', bytesOf(good.replace('DATA;', 'DATA; /* on')), /comment in line 7 has no end/u],
		[
			'a million lines of garbage',
			bytesOf(`${good.slice(0, good.indexOf('ENDSEC;\nEND'))}${'lkj lkj;;;(((\n'.repeat(1_000_000)}`),
			/line 12/u
		]
	])('%s is refused in words', async (_, bytes, reason) => {
		expect(await refusal(bytes)).toMatch(reason);
	});

	it('cut off anywhere, it is refused and never throws', () => {
		const bytes = readFileSync(resolve('fixtures/models/market-hall-millimetres.ifc'));
		for (let end = 0; end < bytes.length - 20; end += 7)
			expect(writingProblem(bytes.subarray(0, end))).not.toBeNull();
		expect(writingProblem(bytes)).toBeNull();
	});

	it('reads what is there past references that lead nowhere, in circles, or to the wrong kind of line', async () => {
		const read = await modelOf(
			'm.ifc',
			bytesOf(
				model({
					data: [
						door(10, '2.', '3.'),
						"#11=IFCDOOR('x',#999,#10,$,$,#11,#11,'T-11',#10,(1.,2.),.DOOR.,$,$);",
						"#12=IFCOPENINGELEMENT('y',$,$,$,$,#30,#40,$,.OPENING.);",
						"#13=IFCOPENINGELEMENT('z');",
						// Each in the other.
						"#20=IFCRELAGGREGATES('a',$,$,$,#10,(#11));",
						"#21=IFCRELAGGREGATES('b',$,$,$,#11,(#10));",
						"#22=IFCRELVOIDSELEMENT('c',$,$,$,#12,#12);",
						"#23=IFCRELDEFINESBYTYPE('d',$,$,$,(#10,#888),#777);",
						"#24=IFCRELDEFINESBYPROPERTIES('e',$,$,$,(#10),#10);",
						'#30=IFCLOCALPLACEMENT(#31,#32);',
						'#31=IFCLOCALPLACEMENT(#30,#32);',
						'#40=IFCPRODUCTDEFINITIONSHAPE($,$,(#41));',
						"#41=IFCSHAPEREPRESENTATION($,'Body','SweptSolid',(#42));",
						'#42=IFCEXTRUDEDAREASOLID(#43,$,$,1.);',
						'#43=IFCRECTANGLEPROFILEDEF(.AREA.,$,$,1.,2.);',
						'#50=NOTINTHESCHEMA(#51);'
					].join('\n')
				})
			)
		);
		expect(read.openings.map(({ line, storey, width, height }) => [line, storey, width, height])).toEqual([
			[10, '', mm(3000), mm(2000)],
			[11, '', null, null],
			[12, '', null, null],
			[13, '', null, null]
		]);
	});

	it('reads letters that an older program wrote in Latin-1', async () => {
		const bytes = new Uint8Array(Buffer.from(good.replace('Door 10', 'Café A'), 'latin1'));
		expect(at(await modelOf('m.ifc', bytes), 10).name).toBe('Café A');
	});

	it('reads past a byte order mark', async () => {
		expect((await modelOf('m.ifc', bytesOf(`\u{feff}${good}`))).openings).toHaveLength(1);
	});

	it('ends at its limits, in words', async () => {
		const many = Array.from(
			{ length: 300_000 },
			(_, i) => `#${i + 100}=IFCCARTESIANPOINT((${i}.,0.,0.));`
		).join('\n');
		const large = bytesOf(model({ data: `${door(10, '2.', '3.')}\n${many}` }));
		expect(await refusal(large, { fileBytes: 1024 })).toContain('at most 0.0 MB are read');
		expect(await refusal(large, { wasmBytes: 18 * 1024 * 1024 })).toContain('needs too much memory');
		expect(await refusal(large, { seconds: 0.02 })).toContain('takes more than 0.02 seconds');
		expect(await refusal(large, { heapMegabytes: 5 })).toMatch(/too much memory|ended early/u);
		expect((await modelOf('m.ifc', large)).openings).toHaveLength(1);
	});

	it('lists no more than a job has rows', async () => {
		const doors = Array.from({ length: 20_001 }, (_, i) => door(i + 10, '2.', '3.')).join('\n');
		expect(await refusal(bytesOf(model({ data: doors })))).toContain('20,001 doors, windows and openings');
	});
});

describe('rows of the grid', () => {
	it('one each: tags become marks, a tag that comes again is told apart', async () => {
		const { openings } = await fixture('ferry-terminal-metres.ifc');
		const rows = modelRows(openings, 'each');
		expect(rows.map(({ mark }) => mark)).toEqual(['K-1', 'K-1-2', 'Shutter, kiosk', 'K-3', 'Shaft', 'Niche']);
		const [first] = rows;
		expect(first && modelCells(first, 'terminal.ifc', 'metric')).toEqual({
			mark: 'K-1',
			quantity: 1,
			location: 'Quay level, Baggage hall',
			openingWidth: { amount: 3_048_000_000, unit: 'nm', typed: '3048 mm' },
			openingHeight: { amount: 2_400_000_000, unit: 'nm', typed: '2400 mm' },
			note: 'From model terminal.ifc, type Shutter S2, GlobalId 0KelpgateFerryTerm0040.'
		});
	});

	it('one a type: alike openings become a quantity, and their places are all named', async () => {
		const { openings } = await fixture('market-hall-millimetres.ifc');
		// D-101 and D-202 are of one type and size, but one of them is exterior and rated: two rows.
		expect(modelRows(openings, 'type').map(({ mark, openings: of }) => [mark, of.length])).toEqual([
			['D-101', 1],
			['D-102', 1],
			['O-7', 1],
			['S-201', 1],
			['D-201', 1],
			['D-202', 1],
			['D-203', 1]
		]);
		const alike = openings.map((opening) => ({ ...opening, exterior: null, notes: [] }));
		const [row] = modelRows(alike, 'type');
		expect(row && modelCells(row, 'hall.ifc', 'imperial')).toEqual({
			mark: 'Grille G1',
			quantity: 2,
			location: 'Ground floor; Gallery',
			// 3048 mm = 120 in = 10 ft; 2438.4 mm = 96 in = 8 ft.
			openingWidth: { amount: 3_048_000_000, unit: 'nm', typed: '10\'-0"' },
			openingHeight: { amount: 2_438_400_000, unit: 'nm', typed: '8\'-0"' },
			note: 'From model hall.ifc, type Grille G1, GlobalId 0SaltmarshPierHall0060, 0SaltmarshPierHall0082.'
		});
	});

	it('keeps inside and outside apart, and names at most 20 openings of a row', async () => {
		const { openings } = await fixture('market-hall-millimetres.ifc');
		const [one] = openings;
		if (!one) throw new Error('the model has no opening');
		const many = Array.from({ length: 25 }, (_, i) => ({ ...one, line: i + 1, globalId: '' }));
		const rows = modelRows([...many, { ...one, line: 26, exterior: true }], 'type');
		expect(rows.map(({ openings: of }) => of.length)).toEqual([25, 1]);
		const named = many.slice(0, 20).map(({ line }) => `#${line}`);
		expect(rows[0] && modelCells(rows[0], 'hall.ifc', 'imperial').note).toBe(
			`From model hall.ifc, type Grille G1, GlobalId ${named.join(', ')} and 5 more.`
		);
	});

	it('gives the same marks whichever are chosen', async () => {
		const { openings } = await fixture('ferry-terminal-metres.ifc');
		const rows = modelRows(openings, 'each');
		expect(chosenRows(rows, new Set([41, 54])).map(({ mark }) => mark)).toEqual(['K-1-2', 'Niche']);
		expect(
			chosenRows(modelRows(openings, 'type'), new Set([41])).map(({ mark, openings: of }) => [
				mark,
				of.length
			])
		).toEqual([['K-1', 1]]);
	});

	it('makes every mark another one, whatever the tags', () => {
		const opening: ModelOpening = {
			line: 1,
			globalId: '',
			kind: 'door',
			tag: '',
			name: '',
			type: '',
			storey: '',
			space: '',
			width: null,
			height: null,
			exterior: null,
			notes: []
		};
		const tag = fc.constantFrom(
			'',
			'A',
			'A-2',
			'A-2-2',
			'B'.repeat(40),
			'B'.repeat(60),
			`${'B'.repeat(38)}-2`
		);
		fc.assert(
			fc.property(fc.array(tag, { maxLength: 30 }), (tags) => {
				const marks = modelRows(
					tags.map((text, line) => ({ ...opening, line, tag: text })),
					'each'
				).map(({ mark }) => mark);
				expect(new Set(marks).size).toBe(tags.length);
				for (const [i, mark] of marks.entries()) {
					expect(mark.length).toBeLessThanOrEqual(40);
					// A tag of its own is kept as it is where it comes first.
					if (tags[i] && tags[i].length <= 40 && tags.indexOf(tags[i]) === i && tags[i] !== 'B'.repeat(40))
						expect(mark).toBe(tags[i]);
				}
			})
		);
	});

	it('writes a size so that it reads back the same', () => {
		const size = fc.oneof(
			fc.integer({ min: 1, max: 1_500_000 }).map((count) => count * 10_000),
			fc.integer({ min: 1, max: 40_000 }).map((count) => count * 396_875)
		);
		fc.assert(
			fc.property(size, (nm) => {
				expect(parseLength(sizeText(nm, 'imperial'), 'in')).toEqual({ ok: true, nm });
				expect(parseLength(sizeText(nm, 'metric'), 'mm')).toEqual({ ok: true, nm });
			})
		);
		expect(sizeText(inch(33 * 64 + 1), 'imperial')).toBe('33 1/64"');
		expect(sizeText(mm(4125.5), 'imperial')).toBe('4125.5 mm');
	});
});
