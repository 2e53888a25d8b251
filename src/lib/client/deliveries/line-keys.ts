/** What the keys do among the lines to explain: one table for the key handler, the help and the buttons. */

export type LineCommandId = 'up' | 'down' | 'accept' | 'choose' | 'notOurs' | 'open' | 'correct' | 'takeBack';

interface LineKey {
	readonly id: LineCommandId;
	/** As `KeyboardEvent.key` has them; letters in capitals. */
	readonly keys: readonly string[];
	/** As they are shown. */
	readonly shown: string;
	readonly title: string;
}

// prettier-ignore
export const lineKeys: readonly LineKey[] = [
	{ id: 'up', keys: ['ArrowUp'], shown: 'Up', title: 'The line before' },
	{ id: 'down', keys: ['ArrowDown'], shown: 'Down', title: 'The next line' },
	{ id: 'accept', keys: ['Enter'], shown: 'Enter', title: 'Accept the first proposal' },
	{ id: 'choose', keys: ['1', '2', '3', '4', '5', '6', '7', '8', '9'], shown: '1 to 9', title: 'Accept the proposal of that number' },
	{ id: 'notOurs', keys: ['N'], shown: 'N', title: 'Not ours: nobody ordered it' },
	{ id: 'open', keys: ['K'], shown: 'K', title: 'Open a kit, or choose the parts by hand' },
	{ id: 'correct', keys: ['R'], shown: 'R', title: 'Correct what was misread' },
	{ id: 'takeBack', keys: ['U'], shown: 'U', title: 'Take the last decision back' }
];

const byKey = new Map(lineKeys.flatMap(({ id, keys }) => keys.map((key) => [key, id] as const)));

type KeyPress = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey' | 'isComposing'>;

/** The command of a key press; null where it means none. `place`: of the proposal, from 0. */
export function lineCommand(event: KeyPress): { readonly id: LineCommandId; readonly place: number } | null {
	if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return null;
	const key = event.key.length === 1 ? event.key.toUpperCase() : event.key;
	const id = byKey.get(key);
	if (id === undefined) return null;
	return { id, place: id === 'choose' ? Number(key) - 1 : 0 };
}

export const keyOf = (id: LineCommandId): string => lineKeys.find((one) => one.id === id)?.shown ?? '';
