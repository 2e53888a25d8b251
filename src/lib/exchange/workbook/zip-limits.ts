/**
 * What a zip file says of itself, checked before anything is unpacked. A workbook from outside is hostile until shown
 * otherwise: sizes lie, entries overlap, archives stand inside archives.
 *
 * Layout after the ZIP specification (PKWARE APPNOTE 6.3.10): 4.3.16 end of central directory, 4.3.12 central
 * directory header, 4.3.7 local file header.
 */
import { grouped, megabytes } from '../sheet.ts';

export interface ZipLimits {
	/** Bytes of all entries unpacked. */
	readonly totalBytes: number;
	/** Bytes of one entry unpacked. */
	readonly entryBytes: number;
	readonly entries: number;
	/** Unpacked over packed, for entries of more than 1 MB. */
	readonly ratio: number;
}

export interface ZipEntry {
	readonly name: string;
	readonly method: 'stored' | 'deflated';
	/** Where the packed bytes begin and end. */
	readonly from: number;
	readonly to: number;
	/** Bytes unpacked, as declared. */
	readonly size: number;
}

export type ZipReading = { ok: true; entries: readonly ZipEntry[] } | { ok: false; reason: string };

const endRecord = 0x06054b50;
const centralHeader = 0x02014b50;
const localHeader = 0x04034b50;
const beyond32Bits = 0xffffffff;
const ratioCounts = 1024 * 1024;
const archives = /\.(?:zip|7z|rar|gz|tgz|bz2|xz|zst|tar|jar|cab|xls[xmb]?|doc[xm]?|ppt[xm]?|od[stp])$/iu;

/** Says why a file is refused. Never leaves this file. */
class Refusal extends Error {}

/**
 * Reads the central directory and refuses, with the reason, what no honest workbook has: a cut-off file, encrypted or
 * unusually packed entries, names twice, entries that overlap, archives inside, sizes beyond the limits.
 */
export function readZip(bytes: Uint8Array, limits: ZipLimits): ZipReading {
	try {
		return { ok: true, entries: directory(bytes, limits) };
	} catch (problem) {
		if (problem instanceof Refusal) return { ok: false, reason: problem.message };
		if (problem instanceof RangeError)
			return { ok: false, reason: 'it is cut off or damaged: its directory points beyond its end' };
		throw problem;
	}
}

function directory(bytes: Uint8Array, limits: ZipLimits): ZipEntry[] {
	const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
	const end = findEnd(view);
	const count = view.getUint16(end + 10, true);
	const start = view.getUint32(end + 16, true);
	if (count === 0xffff || start === beyond32Bits)
		throw new Refusal('it is packed for sizes beyond 4 GB (ZIP64)');
	if (view.getUint16(end + 4, true) !== 0 || view.getUint16(end + 8, true) !== count)
		throw new Refusal('it is one part of an archive in several parts');
	if (count > limits.entries)
		throw new Refusal(
			`it has ${grouped(count)} files inside; at most ${grouped(limits.entries)} are looked into`
		);
	const entries: ZipEntry[] = [];
	const names = new Set<string>();
	const ranges: [number, number][] = [];
	let total = 0;
	let at = start;
	for (let i = 0; i < count; i++) {
		if (view.getUint32(at, true) !== centralHeader)
			throw new Refusal('it is cut off or damaged: its directory is broken');
		const flags = view.getUint16(at + 8, true);
		const method = view.getUint16(at + 10, true);
		const packed = view.getUint32(at + 20, true);
		const size = view.getUint32(at + 24, true);
		const nameLength = view.getUint16(at + 28, true);
		const local = view.getUint32(at + 42, true);
		const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength));
		at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
		if ((flags & 0x2041) !== 0) throw new Refusal(`“${name}” inside it is encrypted`);
		if (method !== 0 && method !== 8) throw new Refusal(`“${name}” inside it is packed in an unusual way`);
		if (packed === beyond32Bits || size === beyond32Bits || local === beyond32Bits)
			throw new Refusal(`“${name}” inside it claims a size beyond 4 GB`);
		if (names.has(name)) throw new Refusal(`“${name}” is in it twice`);
		names.add(name);
		if (archives.test(name))
			throw new Refusal(`another archive is inside it (“${name}”); take that out and save it again`);
		if (size > limits.entryBytes)
			throw new Refusal(
				`“${name}” inside it unpacks to ${megabytes(size)}; at most ${megabytes(limits.entryBytes)} are unpacked`
			);
		total += size;
		if (total > limits.totalBytes)
			throw new Refusal(`it unpacks to more than ${megabytes(limits.totalBytes)}, the most that is unpacked`);
		if (size > ratioCounts && size > packed * limits.ratio)
			throw new Refusal(
				`“${name}” inside it unpacks to ${grouped(Math.round(size / Math.max(packed, 1)))} times its size, as only a trap does`
			);
		if (method === 0 && packed !== size) throw new Refusal(`the sizes of “${name}” inside it disagree`);
		if (view.getUint32(local, true) !== localHeader)
			throw new Refusal(`it is cut off or damaged: “${name}” is not where its directory says`);
		const from = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
		const to = from + packed;
		if (to > start) throw new Refusal(`it is cut off or damaged: “${name}” runs into its directory`);
		ranges.push([local, to]);
		entries.push({ name, method: method === 0 ? 'stored' : 'deflated', from, to, size });
	}
	ranges.sort((a, b) => a[0] - b[0]);
	ranges.forEach(([from], i) => {
		const before = ranges[i - 1];
		if (before && from < before[1]) throw new Refusal('files inside it overlap, as only a trap does');
	});
	return entries;
}

/** The end record stands at the very end, before a comment of at most 65,535 bytes. */
function findEnd(view: DataView): number {
	const last = view.byteLength - 22;
	for (let at = last; at >= Math.max(0, last - 0xffff); at--)
		if (view.getUint32(at, true) === endRecord && at + 22 + view.getUint16(at + 20, true) === view.byteLength)
			return at;
	throw new Refusal('it is cut off or damaged: the end of it is missing');
}
