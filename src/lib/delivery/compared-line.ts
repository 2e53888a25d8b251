/** What is said of one line, and of parts that are on no list. */
import { Decimal } from 'decimal.js';
import type { Part } from '../takeoff/result.ts';
import type { Amounts, ComparedLine, Proposal } from './comparison.ts';
import { confidences } from './confidence.ts';
import type { Deal } from './deal-out.ts';
import { correctionText } from './decided.ts';
import { pools, type Ledger, type LineDeals, type PartAccount } from './ledger.ts';
import type { LineState } from './line.ts';
import { proposeIds, type Match, type NoMatch } from './matched.ts';
import { countedOf, type ReadLine } from './read-line.ts';
import { saysSubstitute } from './remark.ts';
import { amountText, capital, differenceText } from './sentence.ts';

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
	if (read.differences.length > 0 || amounts.wrong.gt(0)) return 'wrong';
	if (amounts.damaged.gt(0)) return 'damaged';
	const nothingHere = amounts.here.plus(amounts.over).isZero();
	if (nothingHere && (read.remark.backordered !== 0 || amounts.backordered.gt(0))) return 'backordered';
	if (amounts.over.gt(0)) return 'over';
	if (read.match.matched && read.match.substitute && amounts.here.gt(0)) return 'substituted';
	return received.lt(ordered) ? 'short' : 'exact';
}

/** What was counted on site, where it is not what the list says. */
function countText({ count, line, quantity }: ReadLine): string[] {
	if (!count) return [];
	const { whole, damaged, wrong, all } = countedOf(count);
	const parts = [
		`${whole.toFixed()} whole`,
		...(damaged.gt(0) ? [`${damaged.toFixed()} damaged`] : []),
		...(wrong.gt(0) ? [`${wrong.toFixed()} wrong`] : [])
	];
	const agrees =
		all.eq(quantity) && all.eq(line.quantity !== null && line.quantity >= 0 ? line.quantity : NaN);
	const listed = line.quantity === null ? 'no number' : String(line.quantity);
	return [`counted on site: ${parts.join(', ')}${agrees ? '' : `; the list says ${listed}`}`];
}

function textOf(read: ReadLine, { amounts, ordered, received }: Standing, unit: Part['unit']): string {
	const said = read.differences.map(differenceText);
	const say = (name: AmountName, words: string): void => {
		if (amounts[name].gt(0)) said.push(`${amountText(amounts[name], unit)} ${words}`);
	};
	if (read.match.matched && read.match.substitute) said.push(read.match.how);
	say('wrong', 'not counted as here');
	say('damaged', 'damaged');
	say('missing', 'listed but missing');
	say('backordered', 'backordered');
	if (amounts.backordered.isZero() && read.remark.backordered !== 0 && !read.count) said.push('backordered');
	say('over', 'more than ordered');
	said.push(...countText(read), `${received.toFixed()} of ${amountText(ordered, unit)} here in all`);
	return capital(`${said.join('; ')}.`);
}

const mostNamed = 3;

/** Marks of what a line speaks of; null where they are too many to name. */
function marksOf({ lots }: Match): string | null {
	const marks = new Set(lots.flatMap(({ parts }) => parts.map(({ part }) => part.mark)));
	return marks.size > mostNamed ? null : [...marks].join(', ');
}

const mostProposed = 5;

function standIns(match: Match, over: Decimal, ledger: Ledger): Proposal[] {
	// Of several counted together it is not known which of them is over.
	const waiting =
		over.gt(0) && match.split !== 'together'
			? match.lots.flatMap((lot) => ledger.waitingFor(lot)).slice(0, mostProposed)
			: [];
	if (waiting.length === 0) return [];
	const names = waiting.map(({ openingId, title }) => `${openingId} ${title}`).join('; ');
	const ordered = match.lots.flatMap(({ parts }) => parts.map(({ part }) => part.partId));
	return [
		proposeIds(
			[...new Set([...ordered, ...waiting.map(({ partId }) => partId)])],
			`what is over may stand in for parts still to come: ${names}`,
			confidences.likely
		)
	];
}

/** A person takes it as it is, though it is not what was ordered. */
function takeInstead(match: Match, remark: string): Proposal {
	const partIds = match.lots.flatMap(({ parts }) => parts.map(({ part }) => part.partId));
	const reason = `it is said to be in place of what was ordered: ${remark}`;
	return {
		partIds,
		reason,
		confidence: confidences.oneOfSeveral,
		decision: { kind: 'substitutes', partIds, reason: remark }
	};
}

/** A kit opened into what of it is still missing. */
function kitProposals({ kit, reason }: NoMatch, ledger: Ledger): Proposal[] {
	const contents = kit.flatMap((lot) => {
		const short = lot.parts.flatMap(({ at }) => {
			const account = ledger.accounts[at];
			return account?.amounts.whole.lt(account.ordered) ? [account] : [];
		});
		const missing = sum(short.map(({ ordered, amounts }) => ordered.minus(amounts.whole)));
		return missing.gt(0)
			? [{ partIds: short.map(({ part }) => part.partId), quantity: missing.toFixed() }]
			: [];
	});
	if (contents.length === 0) return [];
	return [
		{
			partIds: contents.flatMap(({ partIds }) => partIds),
			reason: `${reason}; these of what comes in kits are still missing`,
			confidence: confidences.oneOfSeveral,
			decision: { kind: 'opens', contents }
		}
	];
}

/** @param index place of the line among all lines of all lists */
export function comparedLine(read: ReadLine, index: number, ledger: Ledger): ComparedLine {
	const { list, line, written, match, decision, count } = read;
	const deals = ledger.dealsOf(index);
	const amounts = amountsOf(read, deals);
	const correction = correctionText(written, decision?.decision ?? null);
	const corrected = correction === null ? [] : [correction];
	const place = {
		deliveryId: list.deliveryId,
		delivery: list.name,
		line: count?.line === null ? null : line.line,
		description: line.description,
		amounts: asText(amounts),
		decision,
		count
	};
	if (!match.matched) {
		const text = [match.reason, ...corrected, ...countText(read)].join('; ');
		return {
			...place,
			state: 'notOrdered',
			mark: line.mark,
			kind: null,
			partIds: [],
			reach: null,
			how: `not matched: ${[match.reason, ...corrected].join('; ')}`,
			differences: [],
			confidence: 0,
			asked: match.asked,
			proposals: [...kitProposals(match, ledger), ...match.proposals].sort(
				(a, b) => b.confidence - a.confidence
			),
			alias: null,
			unit: line.unit ?? 'each',
			ordered: null,
			received: null,
			text: capital(`${text}.`)
		};
	}
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
	const instead = decision === null && line.remark !== null && saysSubstitute(line.remark);
	return {
		...place,
		state: stateOf(read, standing),
		mark: reach === 'job' ? line.mark : (marksOf(match) ?? line.mark),
		kind: part.kind,
		partIds: partIds.length > 0 ? partIds : match.lots.map((lot) => lot.part.partId),
		reach,
		how: [match.how, ...corrected, ...new Set(read.shares.notes)].join('; '),
		differences: read.differences,
		confidence: match.confidence,
		asked: instead,
		proposals: [
			...(instead ? [takeInstead(match, line.remark)] : []),
			...standIns(match, amounts.over, ledger)
		],
		alias: match.alias,
		unit: part.unit,
		ordered: standing.ordered.toFixed(),
		received: standing.received.toFixed(),
		text: textOf(read, standing, part.unit)
	};
}

/**
 * Parts of the maker that no line speaks of, those of one mark that may stand in for one another together.
 * @param missing crates and pages that no list names: they may be there
 */
export function unlistedLines(accounts: readonly PartAccount[], missing: readonly string[]): ComparedLine[] {
	const perhaps = missing.length === 0 ? '' : `; it may be in ${missing.join(' or ')}, which no list names`;
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
				confidence: 0,
				asked: false,
				proposals: [],
				decision: null,
				alias: null,
				count: null,
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
				text: `${amountText(ordered, part.unit)} ordered for ${named}; on no packing list${perhaps}.`
			}
		];
	});
}
