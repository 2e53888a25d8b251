/** Reads what a request carries, within limits: a message names what is too large, and the server stays alive. */
import type { Outcome } from '../operations/outcome.ts';
import { done, refuse } from '../operations/outcome.ts';

const mebibyte = 1024 * 1024;
/** The largest file taken in where nothing else is said, MiB. */
const largestFile = 20;
/** The largest edit taken in, MiB: a paste of some ten thousand rows. */
const largestEdit = 20;
/** Room for the other fields of a form. */
const formRoom = mebibyte;

interface Read {
	readonly bytes: Uint8Array<ArrayBuffer>;
	readonly size: number;
	readonly tooLarge: boolean;
}

/**
 * Reads a body to its end, and keeps no more than `limit` bytes of it (the first ones): only then does a browser that is
 * still sending take notice of the answer. Null when the connection ended before the body did.
 */
async function readWithin(request: Request, limit: number): Promise<Read | null> {
	const chunks: Uint8Array[] = [];
	let size = 0;
	let kept = 0;
	try {
		for await (const chunk of request.body ?? []) {
			size += chunk.byteLength;
			if (kept >= limit) continue;
			const part = chunk.subarray(0, limit - kept);
			chunks.push(part);
			kept += part.byteLength;
		}
	} catch {
		return null;
	}
	const bytes = new Uint8Array(kept);
	let at = 0;
	for (const chunk of chunks) {
		bytes.set(chunk, at);
		at += chunk.byteLength;
	}
	return { bytes, size, tooLarge: size > limit };
}

const brokenOff = refuse(422, { message: 'The request broke off before it was whole. Nothing was stored.' });

const inMebibytes = (size: number): string => `${(size / mebibyte).toFixed(1)} MB`;

/** The body as JSON; the shape is for the operation to check. */
export async function readJson(request: Request): Promise<Outcome<unknown>> {
	const read = await readWithin(request, largestEdit * mebibyte);
	if (!read) return brokenOff;
	const { bytes, size, tooLarge } = read;
	if (tooLarge)
		return refuse(413, {
			message: `This change is ${inMebibytes(size)} large; at most ${largestEdit} MB are taken at once. Nothing was stored.`
		});
	try {
		return done(JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) as unknown);
	} catch {
		return refuse(422, { message: 'The request is not readable as JSON. Nothing was stored.' });
	}
}

export interface Upload {
	readonly name: string;
	readonly bytes: Uint8Array;
	/** The other fields of the form, as text. */
	field(name: string): string | null;
}

/** Name of the file in the first part of a form that has one. */
function fileNameIn(bytes: Uint8Array): string {
	const start = new TextDecoder().decode(bytes.subarray(0, 4096));
	return /filename="([^"\r\n]{1,255})"/u.exec(start)?.[1] ?? 'The file';
}

/**
 * A form with one file in the field `file`, of at most `largest` MiB.
 * @param whatToDo a sentence for whoever sends one that is too large
 */
export async function readUpload(
	request: Request,
	largest = largestFile,
	whatToDo = ''
): Promise<Outcome<Upload>> {
	const type = request.headers.get('content-type') ?? '';
	const read = await readWithin(request, largest * mebibyte + formRoom);
	if (!read) return brokenOff;
	const { bytes, size, tooLarge } = read;
	const refuseSize = (name: string, fileSize: number) =>
		refuse(413, {
			message: `${name} is ${inMebibytes(fileSize)} large; a file may have at most ${largest} MB. Nothing was stored.${whatToDo === '' ? '' : ` ${whatToDo}`}`
		});
	if (tooLarge) return refuseSize(fileNameIn(bytes), size);
	let form: FormData;
	try {
		form = await new Response(bytes, { headers: { 'content-type': type } }).formData();
	} catch {
		return refuse(422, { message: 'The request is not a form with a file.' });
	}
	const file = form.get('file');
	if (!(file instanceof File)) return refuse(422, { message: 'No file was chosen.', field: 'file' });
	if (file.size > largest * mebibyte) return refuseSize(file.name, file.size);
	if (file.size === 0) return refuse(422, { message: `${file.name} is empty.` });
	return done({
		name: file.name,
		bytes: new Uint8Array(await file.arrayBuffer()),
		field: (name) => {
			const value = form.get(name);
			return typeof value === 'string' ? value : null;
		}
	});
}
