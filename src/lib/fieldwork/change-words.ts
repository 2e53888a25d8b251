/** Changed parts in one sentence: `Guides 3/8" longer; barrel unchanged; order 1042-01, line 14 must change.` */
import { capital } from '../delivery/sentence.ts';
import type { PartKind } from '../takeoff/result.ts';
import type { PartChange, PartDifference } from './part-changes.ts';
import { listed, type SayLength } from './sentence.ts';

const names: Readonly<Record<PartKind, readonly [one: string, all: string]>> = {
	curtain: ['curtain', 'curtain'],
	bottomBar: ['bottom bar', 'bottom bar'],
	barrel: ['barrel', 'barrel'],
	bracket: ['bracket', 'brackets'],
	guide: ['guide', 'guides'],
	hoodPiece: ['hood pieces', 'hood pieces'],
	hoodSupport: ['hood supports', 'hood supports'],
	endCap: ['end cap', 'end caps'],
	drive: ['tube motor', 'tube motor'],
	operator: ['operator', 'operator'],
	anchor: ['anchors', 'anchors'],
	control: ['control', 'controls'],
	consumable: ['what is used up', 'what is used up']
};

function differenceWords({ attribute, before, after, difference }: PartDifference, say: SayLength): string {
	if (difference !== null) {
		const [more, less] = attribute === 'width' ? ['wider', 'narrower'] : ['longer', 'shorter'];
		return `${say(Math.abs(difference))} ${difference > 0 ? more : less}`;
	}
	const what = { quantity: '', springs: 'springs ', item: '', size: '', length: 'length ', width: 'width ' };
	return `${what[attribute]}${after} instead of ${before}`;
}

const changeWords = ({ state, differences }: PartChange, say: SayLength): string => {
	if (state === 'added') return 'added';
	if (state === 'dropped') return 'no longer needed';
	if (state === 'unchanged') return 'unchanged';
	return differences.map((one) => differenceWords(one, say)).join(' and ');
};

const placed = ({ kind, side }: PartChange): string =>
	kind === 'anchor' && side === null
		? 'anchors over the head'
		: `${names[kind][0]}${side === null ? '' : ` ${side}`}`;

/** `Left and right` said as one where the same became of all of them. */
function phrases(kind: PartKind, changes: readonly PartChange[], say: SayLength): string[] {
	const said = changes.map((change) => changeWords(change, say));
	const [first] = said;
	if (first !== undefined && said.every((one) => one === first)) return [`${names[kind][1]} ${first}`];
	return changes.map((change, i) => `${placed(change)} ${said[i] ?? ''}`);
}

/** Order lines that parts of these are on, each once, by whether they have gone out. */
function lineWords(changes: readonly PartChange[]): string[] {
	const lines = new Map<string, boolean>();
	for (const { orderLines } of changes)
		for (const { orderNumber, line, ordered } of orderLines)
			lines.set(`order ${orderNumber}, line ${String(line)}`, ordered);
	const said = (gone: boolean, end: string): string[] => {
		const these = [...lines].flatMap(([name, ordered]) => (ordered === gone ? [name] : []));
		return these.length === 0 ? [] : [`${these.join(' and ')} ${end}`];
	};
	return [...said(true, 'must change'), ...said(false, 'to be put right before it goes out')];
}

/** What becomes of the parts of an opening. */
export function sentenceOf(changes: readonly PartChange[], say: SayLength): string {
	const moved = changes.filter(({ state }) => state !== 'unchanged');
	if (moved.length === 0) return 'No part changes.';
	const kinds = [...new Set(changes.map(({ kind }) => kind))];
	const ofKind = (kind: PartKind): PartChange[] => changes.filter((change) => change.kind === kind);
	const small = (kind: PartKind): boolean => kind === 'consumable' || kind === 'control';
	const touched = kinds.filter(
		(kind) => !small(kind) && ofKind(kind).some(({ state }) => state !== 'unchanged')
	);
	const still = kinds.filter((kind) => !small(kind) && !touched.includes(kind));
	const used = moved.filter(({ kind }) => small(kind));
	return `${capital(
		[
			...touched.flatMap((kind) => phrases(kind, ofKind(kind), say)),
			...(used.length > 0
				? [`${listed(used.map(({ title }) => title.toLowerCase()))} in other quantities`]
				: []),
			...(still.length > 0 ? [`${listed(still.map((kind) => names[kind][1]))} unchanged`] : []),
			...lineWords(moved)
		].join('; ')
	)}.`;
}
