/** Photos taken on site. The picture is kept as base64 text: so every database and the backup hold it in the same way. */
import type { Kysely } from 'kysely';
import { instant } from './codec.ts';
import { columnsOf, type Author, type JobKey } from './keys.ts';
import type { Tables } from './tables.ts';

export interface Photo {
	readonly photoId: string;
	readonly mediaType: 'image/jpeg' | 'image/png' | 'image/webp';
	readonly bytes: Uint8Array;
	/** SHA-256 of the bytes, hexadecimal. */
	readonly digest: string;
}

export class PhotoRepository {
	readonly #db: Kysely<Tables>;

	constructor(db: Kysely<Tables>) {
		this.#db = db;
	}

	/** Digest of a photo that is there already; null when it is not. */
	async digestOf(key: JobKey, photoId: string): Promise<string | null> {
		const row = await this.#of(key, photoId).select('digest').executeTakeFirst();
		return row?.digest ?? null;
	}

	async find(key: JobKey, photoId: string): Promise<Photo | null> {
		const row = await this.#of(key, photoId).select(['media_type', 'content', 'digest']).executeTakeFirst();
		if (!row) return null;
		const mediaType =
			row.media_type === 'image/png' || row.media_type === 'image/webp' ? row.media_type : 'image/jpeg';
		return {
			photoId,
			mediaType,
			bytes: new Uint8Array(Buffer.from(row.content, 'base64')),
			digest: row.digest
		};
	}

	/** Of all photos of the job. */
	async ids(key: JobKey): Promise<string[]> {
		const rows = await this.#db
			.selectFrom('photo')
			.select('photo_id')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.execute();
		return rows.map((row) => row.photo_id);
	}

	/** How many the job has, and how many bytes they are. */
	async total(key: JobKey): Promise<{ readonly count: number; readonly bytes: number }> {
		const row = await this.#db
			.selectFrom('photo')
			.select(({ fn, eb }) => [
				fn.countAll<number | string>().as('count'),
				fn.sum<number | string | null>(eb.fn<number>('length', ['content'])).as('signs')
			])
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.executeTakeFirstOrThrow();
		// Four signs of base64 hold three bytes.
		return { count: Number(row.count), bytes: Math.floor((Number(row.signs ?? 0) * 3) / 4) };
	}

	async add(key: JobKey, photo: Photo, author: Author, at: Date): Promise<void> {
		await this.#db
			.insertInto('photo')
			.values({
				...columnsOf(key),
				photo_id: photo.photoId,
				media_type: photo.mediaType,
				content: Buffer.from(photo.bytes).toString('base64'),
				digest: photo.digest,
				actor_id: author.id,
				actor_name: author.name,
				received_at: instant.write(at)
			})
			.execute();
	}

	#of(key: JobKey, photoId: string) {
		return this.#db
			.selectFrom('photo')
			.where('company_id', '=', key.companyId)
			.where('job_id', '=', key.jobId)
			.where('photo_id', '=', photoId);
	}
}
