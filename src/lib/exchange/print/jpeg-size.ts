/** Whether a picture can be put on paper as it is: a JPEG whose frame can be read. Nothing of it is decoded. */

/** Markers that start a frame (ISO/IEC 10918-1, table B.1): C0 to CF without DHT. */
const startsFrame = (marker: number): boolean => marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4;

/** Width and height in pixels; null where it is no JPEG, or broken before its frame. */
export function jpegSize(bytes: Uint8Array): { readonly width: number; readonly height: number } | null {
	const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
	if (bytes.length < 4 || view.getUint16(0) !== 0xffd8) return null;
	let at = 2;
	while (at + 9 < bytes.length) {
		if (view.getUint8(at) !== 0xff) return null;
		const marker = view.getUint8(at + 1);
		// Arithmetic coding and reserved ones: no reader of PDF takes them.
		if (marker === 0xc8 || marker === 0xcc) return null;
		if (startsFrame(marker)) {
			const height = view.getUint16(at + 5);
			const width = view.getUint16(at + 7);
			const components = view.getUint8(at + 9);
			return width > 0 && height > 0 && [1, 3, 4].includes(components) ? { width, height } : null;
		}
		at += 2 + view.getUint16(at + 2);
	}
	return null;
}
