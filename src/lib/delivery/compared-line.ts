/** What is said of one line, and of parts that are on no list. */
import { Decimal } from 'decimal.js';
import type { Part } from '../takeoff/result.ts';
import type { Amounts, ComparedLine, Proposal } from './comparison.ts';
import type { Deal } from './deal-out.ts';
import { pools, type Ledger, type LineDeals, type PartAccount } from './ledger.ts';
import type { LineState } from './line.ts';
import type { Match } from './match.ts';
import type { ReadLine } from './read-line.ts';
import { amountText, differenceText } from './sentence.ts';

type AmountName = keyof Amounts;

const zero = new Decimal(0);
const sum = (amounts: readonly Decimal[]): Decimal => amounts.reduce((all, one) => all.plus(one), zero);

const dealt = (deals: readonly (Deal | undefined)[]): Decimal =>
	sum(deals.flatMap((deal) => deal?.dealt.map(({ amount }) => amount) ?? []));

function amountsOf({ shares, match, quantity }: ReadLine, deals: LineDeals): Record<AmountName, Decimal> {
	const parts = {
		here: dealt(deals.whole),
		over: sum(deals.whole.map(({ left }) => left)).plus(shares.surplus),
		damaged: sum(shares.shares.map(({ damaged }) => damaged)),
		wrong: sum(shares.shares.map(({ wrong }) => wrong)),
		backordered: sum(
			shares.shares.map(({ backordered }, index) => backordered ?? dealt([deals.backordered[index]]))
		),
		missing: sum(shares.shares.map(({ missing }) => missing)),
		unmatched: match.matched ? zero : quantity
	};
	return { listed: sum(Object.values(parts)), ...parts };
}

const asText = (amounts: Record<AmountName, Decimal>): Amounts => ({
	listed: amounts.listed.toFixed(),
	here: amounts.here.toFixed(),
	over: amounts.over.toFixed(),
	damaged: amounts.damaged.toFixed(),
	wrong: amounts.wrong.toFixed(),
	backordered: amounts.backordered.toFixed(),
	missing: amounts.missing.toFixed(),
	unmatched: amounts.unmatched.toFixed()
});

interface Standing {
	readonly amounts: Record<AmountName, Decimal>;
	readonly ordered: Decimal;
	readonly received: Decimal;
}

/** One state a line: what a person has to act on first. */
function stateOf(read: ReadLine, { amounts, ordered, received }: Standing): LineState {
	if (read.differences.length > 0) return 'wrong';
	if (amounts.damaged.gt(0)) return 'damaged';
	const nothingHere = amounts.here.plus(amounts.over).isZero();
	if (nothingHere && read.remark.backordered !== 0) return 'backordered';
	if (amounts.over.gt(0)) return 'over';
	return received.lt(ordered) ? 'short' : 'exact';
}

function textOf(read: ReadLine, { amounts, ordered, received }: Standing, unit: Part['unit']): string {
	const said = read.differences.map(differenceText);
	const say = (name: AmountName, words: string): void => {
		if (amounts[name].gt(0)) said.push(`${amountText(amounts[name], unit)} ${words}`);
	};
	say('wrong', 'not counted as here');
	say('damaged', 'damaged');
	say('missing', 'listed but missing');
	say('backordered', 'backordered');
	if (amounts.backordered.isZero() && read.remark.backordered !== 0) said.push('backordered');
	say('over', 'more than ordered');
	said.push(`${received.toFixed()} of ${amountText(ordered, unit)} here in all`);
	const text = said.join('; ');
	return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

const mostProposed = 5;

function standIns(match: Match, over: Decimal, ledger: Ledger): Proposal | null {
	// Of both hands counted together it is not known which hand is over.
	const waiting =
		over.gt(0) && !match.together
			? match.lots.flatMap((lot) => ledger.waitingFor(lot)).slice(0, mostProposed)
			: [];
	if (waiting.length === 0) return null;
	const names = waiting.map(({ openingId, title }) => `${openingId} ${title}`).join('; ');
	return {
		partIds: waiting.map(({ partId }) => partId),
		reason: `what is over may stand in for parts still to come: ${names}`
	};
}

/** @param index place of the line among all lines of all lists */
export function comparedLine(read: ReadLine, index: number, ledger: Ledger): ComparedLine {
	const { list, line, match } = read;
	const deals = ledger.dealsOf(index);
	const amounts = amountsOf(read, deals);
	const place = {
		deliveryId: list.deliveryId,
		delivery: list.name,
		line: line.line,
		description: line.description,
		amounts: asText(amounts)
	};
	if (!match.matched)
		return {
			...place,
			state: 'notOrdered',
			mark: line.mark,
			kind: null,
			partIds: [],
			reach: null,
			how: `not matched: ${match.reason}`,
			differences: [],
			proposal: match.proposal,
			unit: line.unit ?? 'each',
			ordered: null,
			received: null,
			text: `${match.reason.charAt(0).toUpperCase()}${match.reason.slice(1)}.`
		};
	const { part, reach } = { ...match.lots[0] };
	const standing: Standing = {
		amounts,
		ordered: sum(match.lots.map(({ ordered }) => ordered)),
		received: sum(match.lots.map((lot) => ledger.received(lot)))
	};
	const taken = new Set(
		pools.flatMap((pool) => deals[pool].flatMap((deal) => deal.dealt.map(({ at }) => at)))
	);
	const partIds = [...taken].sort((a, b) => a - b).flatMap((at) => ledger.accounts[at]?.part.partId ?? []);
	return {
		...place,
		state: stateOf(read, standing),
		mark: reach === 'job' ? line.mark : part.mark,
		kind: part.kind,
		partIds: partIds.length > 0 ? partIds : match.lots.map((lot) => lot.part.partId),
		reach,
		how: [match.how, ...new Set(read.shares.notes)].join('; '),
		differences: read.differences,
		proposal: standIns(match, amounts.over, ledger),
		unit: part.unit,
		ordered: standing.ordered.toFixed(),
		received: standing.received.toFixed(),
		text: textOf(read, standing, part.unit)
	};
}

/** Parts of the maker that no line speaks of, those of one mark that may stand in for one another together. */
export function unlistedLines(accounts: readonly PartAccount[]): ComparedLine[] {
	const groups = new Map<string, PartAccount[]>();
	for (const account of accounts) {
		const { part, listed, ordered } = account;
		if (listed || part.supply === 'stock' || ordered.isZero()) continue;
		const key = JSON.stringify([part.mark, part.interchangeKey]);
		const group = groups.get(key) ?? [];
		groups.set(key, group);
		group.push(account);
	}
	return [...groups.values()].flatMap((group): ComparedLine[] => {
		const part = group[0]?.part;
		if (!part) return [];
		const ordered = sum(group.map((one) => one.ordered));
		const openings = [...new Set(group.map((one) => one.part.openingId))];
		const named = openings.length > 4 ? `${openings.length} openings` : openings.join(', ');
		return [
			{
				deliveryId: null,
				delivery: null,
				line: null,
				state: 'notListed',
				mark: part.mark,
				description: part.title,
				kind: part.kind,
				partIds: group.map((one) => one.part.partId),
				reach: null,
				how: 'no line of any packing list speaks of it',
				differences: [],
				proposal: null,
				unit: part.unit,
				amounts: asText({
					listed: zero,
					here: zero,
					over: zero,
					damaged: zero,
					wrong: zero,
					backordered: zero,
					missing: zero,
					unmatched: zero
				}),
				ordered: ordered.toFixed(),
				received: '0',
				text: `${amountText(ordered, part.unit)} ordered for ${named}; on no packing list.`
			}
		];
	});
}
