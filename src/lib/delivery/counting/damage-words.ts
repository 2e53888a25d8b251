/** The sentences that stand over damage notes, on the page and on paper alike. They are cautions, no advice in law. */
import type { DamageNotes, TellBy } from './damage-notes.ts';

/** Before anybody signs. *Common practice, no source.* */
export const beforeSigning: readonly string[] = [
	'Write what is damaged, wrong, short or too many on the carrier’s paper before you sign it, and have the driver sign it too. Do not sign it as clear where something is noted here.',
	'A crate that is dented, wet, tilted or opened is noted as such, even where nothing inside is seen to be broken: “packing damaged, contents not inspected”.',
	'Keep all packing, straps and seals of what came damaged, leave it as it is, and photograph it before it is moved, until the carrier has looked at it or says that he will not.'
];

/** @param tell null as long as the day of delivery is not known */
export function concealedWords(tell: TellBy | null): string {
	const commonly =
		'Damage that shows only when a crate is opened has to be told within a few days of delivery, commonly five days of the calendar in road freight (common practice, no source); other carriers, countries and contracts give less or more.';
	const check =
		'Check this against the carrier’s terms: some count the day of delivery as the first, and then the last day is one earlier.';
	if (tell === null) return `${commonly} ${check}`;
	const { days, basis, lastDay } = tell;
	const by =
		basis === 'writtenDown'
			? `By what is written down with the supplier, ${days} ${days === 1 ? 'day' : 'days'}, it is to be told by ${lastDay}.`
			: `By the common ${days} days it is to be told by ${lastDay}.`;
	return `${commonly} ${by} ${check}`;
}

/** Before anybody unloads. *Common practice, no source*; the rules of the site and of the law go before it. */
export const beforeUnloading: readonly string[] = [
	'Crates are heavy and their weight is seldom in the middle. Look for the weight on the crate or the paper; lift with what is made for it, and stand clear of what is lifted.',
	'Barrels may come with springs wound and tied. Cut no band, strap or pin on a barrel: somebody who is trained for stored spring energy does that.',
	'Cut straps from the side, with gloves and glasses: they whip, and what leans on them may fall.',
	'Nobody rides or stands on the load, or under it. The rules of the site, and whoever directs the traffic, go before this page.'
];

/** What the notes do not speak of, so that nobody takes a blank for a tick. */
export function damageRemarks({ agreeing, uncounted }: DamageNotes, isFinished: boolean): readonly string[] {
	const lines = (count: number): string => `${count} ${count === 1 ? 'line' : 'lines'}`;
	return [
		...(agreeing === 0
			? []
			: [`${lines(agreeing)} of the list ${agreeing === 1 ? 'was' : 'were'} counted whole and as listed.`]),
		...(uncounted === 0
			? []
			: [
					`${lines(uncounted)} ${uncounted === 1 ? 'is' : 'are'} not counted: nothing is said of ${uncounted === 1 ? 'it' : 'them'} here.`
				]),
		...(isFinished ? [] : ['The count of this truck is still open.'])
	];
}
