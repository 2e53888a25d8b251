/** Which openings can start as the packing lists alone have it, task by task, and what holds the others. */
import type { TaskGroup } from '../../takeoff/result.ts';
import type { OpeningReadiness, TaskReadiness } from '../comparison.ts';
import type { PartAccount } from '../ledger.ts';
import { amountText } from '../sentence.ts';

const tasks: readonly TaskGroup[] = ['guides', 'brackets', 'coil', 'hood', 'power'];

const holds = ({ part, ordered, listed, amounts }: PartAccount): boolean =>
	amounts.whole.lt(ordered) && (part.supply === 'maker' || listed);

/** `Guide, left: 0 of 1 here (1 damaged on line 7).` */
function holdText({ part, ordered, listed, amounts, deals }: PartAccount, several: boolean): string {
	const held = deals.filter(({ pool }) => pool !== 'whole');
	const details = held.map(({ pool, amount, read: { list, line, differences } }) => {
		const attributes = [...new Set(differences.map(({ attribute }) => attribute))].join(', ');
		const which = pool === 'wrong' && attributes !== '' ? `wrong ${attributes}` : pool;
		return `${amount.toFixed()} ${which} on line ${line.line}${several ? ` of ${list.name}` : ''}`;
	});
	const why = listed ? details.join('; ') : 'on no packing list';
	const here = `${part.title}: ${amounts.whole.toFixed()} of ${amountText(ordered, part.unit)} here`;
	return why === '' ? `${here}.` : `${here} (${why}).`;
}

/** Stops of the takeoff for one opening: it does not start before they are cleared, whatever has come. */
export interface OpeningStops {
	readonly openingId: string;
	readonly mark: string;
	readonly stops: readonly string[];
}

/**
 * @param accounts in the wanted order
 * @param stopped openings with stops; one that has no parts (it could not be computed) comes after the others
 * @param several there is more than one list, so a line is named with its list
 */
export function readinessByLists(
	accounts: readonly PartAccount[],
	stopped: readonly OpeningStops[],
	several: boolean
): OpeningReadiness[] {
	const openings = new Map<string, PartAccount[]>();
	const stopsOf = new Map(stopped.map(({ openingId, stops }) => [openingId, stops]));
	for (const account of accounts) {
		const list = openings.get(account.part.openingId) ?? [];
		openings.set(account.part.openingId, list);
		list.push(account);
	}
	const withParts = [...openings].map(([openingId, parts]): OpeningReadiness => {
		const readTasks = tasks.flatMap((task): TaskReadiness[] => {
			const needed = parts.filter(({ part }) => part.task === task);
			if (needed.length === 0) return [];
			const texts = needed.filter(holds).map((account) => holdText(account, several));
			return [{ task, clear: texts.length === 0, holds: texts }];
		});
		const stops = stopsOf.get(openingId) ?? [];
		return {
			openingId,
			mark: parts[0]?.part.mark ?? '',
			clear: stops.length === 0 && readTasks.every(({ clear }) => clear),
			stops,
			tasks: readTasks
		};
	});
	const withoutParts = stopped
		.filter(({ openingId, stops }) => stops.length > 0 && !openings.has(openingId))
		.map(({ openingId, mark, stops }) => ({ openingId, mark, clear: false, stops, tasks: [] }));
	return [...withParts, ...withoutParts];
}
