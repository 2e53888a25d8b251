/** The others in a job, in words. */
import type { PersonThere } from '../../changes/live.ts';

/** `Ada Lisle` → `AL`; at most two letters. */
export function initialsOf(name: string): string {
	const words = name.split(/\s+/u).filter((word) => /^\p{L}/u.test(word));
	const ends = words.length > 1 ? [words[0], words.at(-1)] : words;
	const letters = ends.map((word) => String.fromCodePoint(word?.codePointAt(0) ?? 0));
	return letters.join('').toUpperCase() || '?';
}

/** As the others are called here: another page of one's own is one's own. */
export const callOf = (person: PersonThere, ownId: string): string =>
	person.personId === ownId ? 'You, on another page' : person.name;

/** What is said of a cell where others are: `Ada Lisle is typing here`, `Ada Lisle and Ben Vance are here`. */
export function hereWords(people: readonly PersonThere[], ownId: string): string {
	const say = (those: readonly PersonThere[], what: string): string => {
		const names = those.map((person) => callOf(person, ownId));
		if (names.length === 0) return '';
		const list =
			names.length === 1 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;
		const are = names.length > 1 || list.startsWith('You,') ? 'are' : 'is';
		return `${list} ${are} ${what}`;
	};
	const typing = people.filter(({ editing }) => editing);
	const looking = people.filter(({ editing }) => !editing);
	return [say(typing, 'typing here'), say(looking, 'here')].filter((words) => words !== '').join(', ');
}
