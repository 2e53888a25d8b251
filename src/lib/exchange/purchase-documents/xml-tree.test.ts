import { describe, expect, it } from 'vitest';
import { deepest, mostAttributes, mostBytes, mostElements, readXml } from './xml-tree.ts';

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const message = (content: string | Uint8Array): string => {
	const reading = readXml('f.xml', typeof content === 'string' ? bytesOf(content) : content);
	return reading.ok ? 'read' : reading.message;
};
const nested = (levels: number): string => '<a>'.repeat(levels) + '</a>'.repeat(levels);
const many = (elements: number): string => `<a>${'<b/>'.repeat(elements - 1)}</a>`;
const attributes = (count: number): string =>
	`<a ${Array.from({ length: count }, (_, i) => `x${i}="1"`).join(' ')}/>`;

const codes = (text: string): number[] => Array.from(text, (sign) => sign.charCodeAt(0));

describe('XML of strangers', () => {
	it.each([
		['entities that grow', '<!DOCTYPE a [<!ENTITY x "ha"><!ENTITY y "&x;&x;">]><a>&y;</a>', 'DOCTYPE'],
		['a file of this machine', '<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/passwd">]><a>&x;</a>', 'DOCTYPE'],
		['a declaration alone', '<!DOCTYPE a SYSTEM "http://example.invalid/a.dtd"><a/>', 'DOCTYPE'],
		[
			'a declaration behind other things',
			'<?xml version="1.0"?>\n<!-- > -->\n<?go > ?><!DOCTYPE a><a/>',
			'line 3'
		],
		['a declaration that never ends', '<!DOCTYPE a [<!ENTITY x "y">', 'DOCTYPE'],
		['a declaration in the wrong place', '<a><!DOCTYPE a></a>', 'not well-formed'],
		['an entity nobody declared', '<a>&nbsp;</a>', 'entity'],
		['an element that is not closed', '<a>\n<b>\n</a>', 'line 3: it is not well-formed'],
		['a file cut off', '<a><b>text', 'not well-formed'],
		['two roots', '<a/><a/>', 'not well-formed'],
		['a prefix without a namespace', '<x:a/>', 'not well-formed'],
		['an attribute twice', '<a b="1" b="2"/>', 'not well-formed'],
		['text only', 'Mark,Qty\nC-101,4', 'not XML'],
		['nothing', '', 'is empty']
	])('%s is refused', (_, text, expected) => {
		expect(message(text)).toContain(expected);
	});

	it('is read up to the limits and not beyond', () => {
		expect(message(nested(deepest))).toBe('read');
		expect(message(nested(deepest + 1))).toContain(`deeper than ${deepest}`);
		expect(message(many(mostElements))).toBe('read');
		expect(message(many(mostElements + 1))).toContain('100,000 elements');
		expect(message(attributes(mostAttributes))).toBe('read');
		expect(message(attributes(mostAttributes + 1))).toContain(`more than ${mostAttributes} attributes`);
		expect(message(new Uint8Array(mostBytes + 1).fill(60))).toContain('at most 5.0 MB');
	});

	it('is read by its namespaces, with references, sections of text and lines', () => {
		const reading = readXml(
			'f.xml',
			bytesOf(
				'<?xml version="1.0"?>\n<!-- c --><p:a xmlns:p="urn:x" k="&lt;1&#62;">\n<b><![CDATA[1 < 2]]> &amp;\n 3</b><?go?></p:a>'
			)
		);
		expect(reading.ok && reading.root).toEqual({
			space: 'urn:x',
			name: 'a',
			attributes: new Map([['k', '<1>']]),
			text: '',
			line: 2,
			children: [{ space: '', name: 'b', attributes: new Map(), text: '1 < 2 & 3', line: 3, children: [] }]
		});
	});

	it('is read in the encodings it may be in', () => {
		const textOf = (bytes: Uint8Array): string => {
			const reading = readXml('f.xml', bytes);
			return reading.ok ? reading.root.text : reading.message;
		};
		// é is E9 in Latin 1, C3 A9 in UTF-8, E9 00 in UTF-16 from the low end.
		const latin = codes('<?xml version="1.0" encoding="ISO-8859-1"?><a>é</a>');
		expect(textOf(Uint8Array.from(latin))).toBe('é');
		expect(textOf(bytesOf('\uFEFF<a>é</a>'))).toBe('é');
		const wide = codes('\uFEFF<a>é</a>').flatMap((code) => [code & 255, code >> 8]);
		expect(textOf(Uint8Array.from(wide))).toBe('é');
		expect(textOf(Uint8Array.from([60, 97, 62, 0xe9, 60, 47, 97, 62]))).toContain('not UTF-8');
		expect(textOf(bytesOf('<?xml version="1.0" encoding="EBCDIC-CP-US"?><a/>'))).toContain('EBCDIC-CP-US');
	});
});
