/** Unpacking and packing of single parts of a workbook file. */
import { crc32, inflateRawSync } from 'node:zlib';
import type { ZipEntry } from './zip-limits.ts';

/** Says why a workbook is refused: one sentence about the file, without its name. */
export class WorkbookRefusal extends Error {}

/** @throws WorkbookRefusal when the entry does not unpack to the size it declares. */
export function unpack(bytes: Uint8Array, entry: ZipEntry): Buffer {
	const packed = bytes.subarray(entry.from, entry.to);
	if (entry.method === 'stored') return Buffer.from(packed);
	try {
		const content = inflateRawSync(packed, { maxOutputLength: Math.max(entry.size, 1) });
		if (content.length === entry.size) return content;
	} catch (problem) {
		if (!(problem instanceof Error)) throw problem;
	}
	throw new WorkbookRefusal(
		`it is damaged: “${entry.name}” inside it does not unpack to the size it declares`
	);
}

/** A zip file whose parts are stored as they are (APPNOTE 6.3.10, 4.3). */
export function packStored(parts: readonly { name: string; content: Buffer }[]): Buffer {
	const local: Buffer[] = [];
	const central: Buffer[] = [];
	let offset = 0;
	for (const { name, content } of parts) {
		const text = Buffer.from(name);
		// From "version needed" to "extra field length"; the same in both headers.
		const common = Buffer.alloc(26);
		common.writeUInt16LE(20, 0);
		common.writeUInt32LE(crc32(content), 10);
		common.writeUInt32LE(content.length, 14);
		common.writeUInt32LE(content.length, 18);
		common.writeUInt16LE(text.length, 22);
		const header = Buffer.alloc(4);
		header.writeUInt32LE(0x04034b50);
		local.push(header, common, text, content);
		const before = Buffer.alloc(6);
		before.writeUInt32LE(0x02014b50, 0);
		before.writeUInt16LE(20, 4);
		const after = Buffer.alloc(14);
		after.writeUInt32LE(offset, 10);
		central.push(before, common, after, text);
		offset += 30 + text.length + content.length;
	}
	const size = central.reduce((sum, part) => sum + part.length, 0);
	const end = Buffer.alloc(22);
	end.writeUInt32LE(0x06054b50, 0);
	end.writeUInt16LE(parts.length, 8);
	end.writeUInt16LE(parts.length, 10);
	end.writeUInt32LE(size, 12);
	end.writeUInt32LE(offset, 16);
	return Buffer.concat([...local, ...central, end]);
}
