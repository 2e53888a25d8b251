/** Makes a photo small enough to be sent from a site: at most so many pixels long, as JPEG. Its place and camera are left out. */
import { largestPhoto } from '../../changes/site.ts';

const longestSide = 2000;
const quality = 0.82;
const mebibyte = 1024 * 1024;

export type Shrunk =
	| { readonly ok: true; readonly bytes: ArrayBuffer; readonly type: string }
	| { readonly ok: false; readonly message: string };

/** Width and height of the picture that is kept, whole pixels of 1 or more. */
export function shrunkSize(
	width: number,
	height: number
): { readonly width: number; readonly height: number } {
	const scale = Math.min(1, longestSide / Math.max(width, height));
	return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

async function drawnSmaller(file: Blob): Promise<Blob | null> {
	const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
	try {
		const { width, height } = shrunkSize(picture.width, picture.height);
		const canvas = document.createElement('canvas');
		canvas.width = width;
		canvas.height = height;
		const pen = canvas.getContext('2d');
		if (!pen) return null;
		// What is clear in a picture with clear parts is paper.
		pen.fillStyle = '#fff';
		pen.fillRect(0, 0, width, height);
		pen.imageSmoothingQuality = 'high';
		pen.drawImage(picture, 0, 0, width, height);
		return await new Promise((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality));
	} finally {
		picture.close();
	}
}

const sizeWords = (bytes: number): string => `${(bytes / mebibyte).toFixed(1)} MB`;

/** As it came, where that is what the office takes: a browser that can’t make it smaller must not lose it. */
async function asItCame(file: File): Promise<Shrunk> {
	const isTaken = ['image/jpeg', 'image/png', 'image/webp'].includes(file.type);
	if (isTaken && file.size <= largestPhoto * mebibyte)
		return { ok: true, bytes: await file.arrayBuffer(), type: file.type };
	return {
		ok: false,
		message: isTaken
			? `${file.name} is ${sizeWords(file.size)} large, and this phone can’t make it smaller; at most ${largestPhoto} MB are taken. Take it again at a smaller size in the camera’s settings.`
			: `${file.name} can’t be read as a picture here. Take it as JPEG (in the camera’s settings: most compatible), or take a photo of the screen.`
	};
}

export async function shrinkPhoto(file: File): Promise<Shrunk> {
	let small: Blob | null = null;
	try {
		small = await drawnSmaller(file);
	} catch {
		// Not a picture that this browser knows, or too large for its memory.
	}
	if (!small || small.size > largestPhoto * mebibyte) return asItCame(file);
	return { ok: true, bytes: await small.arrayBuffer(), type: 'image/jpeg' };
}
