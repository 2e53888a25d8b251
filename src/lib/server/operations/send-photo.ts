import { createHash } from 'node:crypto';
import type { PhotoTaken } from '../../changes/site.ts';
import type { Actor } from '../identity/actor.ts';
import type { Photo } from '../storage/photo.repository.ts';
import { changeRecords } from './change-records.ts';
import { sentId } from './count-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** Of one job: more than a site takes, and what a database carries without trouble. */
export const photoLimits = { count: 500, bytes: 1024 ** 3 } as const;

const startsWith = (bytes: Uint8Array, signs: readonly number[], at = 0): boolean =>
	signs.every((sign, i) => bytes[at + i] === sign);

/**
 * Told by the first bytes: JPEG (ISO/IEC 10918-1, B.1.1.3), PNG (W3C PNG, 5.2), WebP (RFC 9649, 2.4). Null for anything
 * else, whatever it is called.
 */
function mediaTypeOf(bytes: Uint8Array): Photo['mediaType'] | null {
	if (startsWith(bytes, [0xff, 0xd8, 0xff])) return 'image/jpeg';
	if (startsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'image/png';
	if (startsWith(bytes, [0x52, 0x49, 0x46, 0x46]) && startsWith(bytes, [0x57, 0x45, 0x42, 0x50], 8))
		return 'image/webp';
	return null;
}

const inKilobytes = (size: number): string => `${Math.ceil(size / 1024)} kB`;

/** Keeps a photo under the id that the phone gave it. The same photo again changes nothing. */
export async function sendPhoto(
	actor: Actor,
	services: Services,
	jobId: string,
	form: { readonly name: string; readonly bytes: Uint8Array; field(name: string): string | null }
): Promise<Outcome<PhotoTaken>> {
	const id = sentId.safeParse(form.field('photoId') ?? '');
	if (!id.success) return refuse(422, { message: 'The photo came without its id. Nothing was stored.' });
	const photoId = id.data;
	const { bytes } = form;
	const mediaType = mediaTypeOf(bytes);
	if (mediaType === null)
		return refuse(422, {
			message: `${form.name.slice(0, 100)} is no photo that is kept here: JPEG, PNG or WebP. Nothing was stored.`
		});
	const digest = createHash('sha256').update(bytes).digest('hex');
	return changeRecords<PhotoTaken>(actor, services, jobId, async (inside, key, at) => {
		const title = 'Add a photo';
		const known = await inside.photos.digestOf(key, photoId);
		if (known === digest)
			return done({ kind: 'count' as const, title, records: [], value: { photoId, known: true } });
		if (known !== null)
			return refuse(409, {
				message: 'Another photo came under this id before. It stays; take this one again.'
			});
		const total = await inside.photos.total(key);
		if (total.count >= photoLimits.count)
			return refuse(422, {
				message: `This job has ${total.count} photos, the most it may have. The count is kept without this one.`
			});
		if (total.bytes + bytes.byteLength > photoLimits.bytes)
			return refuse(422, {
				message:
					'The photos of this job have reached 1 GB, the most they may. The count is kept without this one.'
			});
		await inside.photos.add(key, { photoId, mediaType, bytes, digest }, actor, at);
		const kind = mediaType.slice('image/'.length).toUpperCase();
		const record = { record: 'Photo', name: photoId.slice(0, 8), field: 'Picture', before: null };
		const records = [{ ...record, after: `${kind}, ${inKilobytes(bytes.byteLength)}` }];
		return done({ kind: 'count' as const, title, records, value: { photoId, known: false } });
	});
}
