/** Zip files made by hand for the tests, honest or not (ZIP specification, PKWARE APPNOTE 6.3.10, 4.3). */
import { crc32, deflateRawSync } from 'node:zlib';

export interface ZipPart {
	readonly name: string;
	readonly content: Uint8Array | string;
	/** Size to declare instead of the true one. */
	readonly declared?: number;
	/** General purpose flags: 1 is encrypted. */
	readonly flags?: number;
	/** Points at the part of this number instead of one of its own. */
	readonly sharedWith?: number;
}

export function zip(parts: readonly ZipPart[]): Buffer {
	const local: Buffer[] = [];
	const central: Buffer[] = [];
	const offsets: number[] = [];
	let offset = 0;
	for (const { name, content, declared, flags = 0, sharedWith } of parts) {
		const bytes = Buffer.from(content);
		const packed = deflateRawSync(bytes);
		const text = Buffer.from(name);
		const common = Buffer.alloc(26);
		common.writeUInt16LE(20, 0);
		common.writeUInt16LE(flags, 2);
		common.writeUInt16LE(8, 4);
		common.writeUInt32LE(crc32(bytes), 10);
		common.writeUInt32LE(packed.length, 14);
		common.writeUInt32LE(declared ?? bytes.length, 18);
		common.writeUInt16LE(text.length, 22);
		const at = sharedWith === undefined ? offset : (offsets[sharedWith] ?? 0);
		offsets.push(at);
		if (sharedWith === undefined) {
			local.push(Buffer.from([0x50, 0x4b, 3, 4]), common, text, packed);
			offset += 30 + text.length + packed.length;
		}
		const after = Buffer.alloc(14);
		after.writeUInt32LE(at, 10);
		central.push(Buffer.from([0x50, 0x4b, 1, 2, 20, 0]), common, after, text);
	}
	const size = central.reduce((sum, part) => sum + part.length, 0);
	const end = Buffer.alloc(22);
	Buffer.from([0x50, 0x4b, 5, 6]).copy(end);
	end.writeUInt16LE(parts.length, 8);
	end.writeUInt16LE(parts.length, 10);
	end.writeUInt32LE(size, 12);
	end.writeUInt32LE(offset, 16);
	return Buffer.concat([...local, ...central, end]);
}

const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

export interface WorkbookParts {
	/** Inside the sheet's root element. */
	readonly sheet?: string;
	/** A whole part instead of the usual one. */
	readonly sheetXml?: string | Uint8Array;
	readonly sheetName?: string;
	/** After the list of sheets. */
	readonly workbookEnd?: string;
	readonly styles?: string;
	readonly more?: readonly ZipPart[];
}

/** The least that is a workbook (ECMA-376 part 1, 18.2 and 18.3), of one sheet. */
export function workbookFile(parts: WorkbookParts): Buffer {
	const {
		sheet = '<sheetData/>',
		sheetXml,
		sheetName = 'Sheet',
		workbookEnd = '',
		styles,
		more = []
	} = parts;
	return zip([
		{
			name: 'xl/workbook.xml',
			content: `<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="${sheetName}" sheetId="1" r:id="rId1"/></sheets>${workbookEnd}</workbook>`
		},
		{
			name: 'xl/_rels/workbook.xml.rels',
			content: `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${office}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`
		},
		{
			name: 'xl/worksheets/sheet1.xml',
			content: sheetXml ?? `<worksheet xmlns="${main}">${sheet}</worksheet>`
		},
		...(styles === undefined ? [] : [{ name: 'xl/styles.xml', content: styles }]),
		...more
	]);
}

/** Rows of plain text, as inline strings. */
export function textRows(rows: readonly (readonly string[])[]): string {
	const cells = rows.map((row) => {
		const inner = row
			.map(
				(text) =>
					`<c t="inlineStr"><is><t>${text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</t></is></c>`
			)
			.join('');
		return `<row>${inner}</row>`;
	});
	return `<sheetData>${cells.join('')}</sheetData>`;
}
