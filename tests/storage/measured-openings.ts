/** Field measures for tests: as an opening is drawn, true and plumb, with room around it. Invented. */
import type { FieldReadings } from '../../src/lib/fieldwork/field-measure.ts';
import type { Actor } from '../../src/lib/server/identity/actor.ts';
import { openingKeysOf } from '../../src/lib/server/operations/opening-keys.ts';
import { operations } from '../../src/lib/server/operations/operations.ts';
import type { Services } from '../../src/lib/server/operations/services.ts';
import { value } from './services.ts';

const inch = 25_400_000;
let made = 0;

/** @param change what is measured otherwise than drawn */
export async function measureAsDrawn(
	actor: Actor,
	services: Services,
	jobId: string,
	openingId: string,
	change: (readings: FieldReadings) => FieldReadings = (readings) => readings
): Promise<void> {
	const key = { companyId: actor.companyId, jobId };
	const job = await services.storage.jobs.find(key);
	if (!job) throw new Error('there is no such job');
	const engine = await services.engines.engine(actor.companyId, job.technicalDigest);
	const takeoff = engine.takeoff(await services.storage.openings.live(key), job.measures);
	const opening = takeoff.openings.find(({ openingIds }) => openingIds.includes(openingId));
	const nm = (id: string): number => {
		const figure = opening?.get(id);
		if (typeof figure !== 'number') throw new Error(`${id} of ${openingId} is not known`);
		return figure;
	};
	const [width, height] = [nm('openingWidth'), nm('openingHeight')];
	const diagonal = Math.round(Math.hypot(width, height));
	const jamb = [0, Math.round(height / 2), height].map((level) => ({
		height: level,
		inPlane: 0,
		outOfPlane: 0
	}));
	const wall = (side: string): string => String(opening?.get(`substrate${side}`));
	const readings = change({
		widths: { bottom: width, middle: width, top: width },
		heights: { left: height, right: height },
		diagonals: { rising: diagonal, falling: diagonal },
		plumb: { left: jamb, right: jamb },
		sillRise: 0,
		headroom: 60 * inch,
		leftSideRoom: 36 * inch,
		rightSideRoom: 36 * inch,
		leftSubstrate: wall('Left'),
		rightSubstrate: wall('Right')
	});
	value(
		await operations.saveMeasure(actor, services, jobId, {
			measureId: `phone-2-${String(++made).padStart(6, '0')}`,
			openingKey: openingKeysOf(takeoff).keys.get(openingId) ?? '',
			readings,
			note: '',
			measuredAt: '2026-11-30T15:00:00.000Z'
		})
	);
}
