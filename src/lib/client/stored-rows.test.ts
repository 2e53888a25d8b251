import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyChanges, type SheetRow } from '../changes/apply.ts';
import type { Change, Edit } from '../changes/message.ts';
import { demoTechnicalBook } from '../shopbook/demo/demo-book.ts';
import { buildEngine } from '../takeoff/engine.ts';
import type { OpeningRow } from '../takeoff/inputs.ts';
import { StoredRows, type ToldRows } from './stored-rows.ts';
import { WorkedRows } from './worked-rows.ts';

const row = (id: string, location: string): OpeningRow => ({ id, cells: { location } });
const told = (revision: number, rows: OpeningRow[], order: string[] | null = null): ToldRows => ({
	revision,
	rows,
	order
});

describe('rows told in any order', () => {
	it('keep the latest of every row, whichever comes first', () => {
		const rows = new StoredRows();
		rows.adopt([row('a', 'first')], 1);
		rows.take(told(3, [row('a', 'third')]));
		rows.take(told(2, [row('a', 'second')]));
		expect(rows.all()).toEqual([{ id: 'a', cells: { location: 'third' }, removed: false }]);
		rows.adopt([row('a', 'first')], 1);
		expect(rows.row('a')?.cells).toEqual({ location: 'third' });
	});

	it('wait for the cells of a row whose place was told before', () => {
		const rows = new StoredRows();
		rows.adopt([row('a', 'A')], 1);
		rows.take(told(3, [row('mine', 'M')], ['a', 'theirs', 'mine']));
		expect(rows.all().map(({ id }) => id)).toEqual(['a', 'mine']);
		rows.take(told(2, [row('theirs', 'T')], ['a', 'theirs']));
		expect(rows.all().map(({ id }) => id)).toEqual(['a', 'theirs', 'mine']);
	});

	it('do not come back by an answer that is older than their removal', () => {
		const rows = new StoredRows();
		rows.adopt([row('a', 'A'), row('b', 'B')], 1);
		rows.take(told(3, [], ['a']));
		rows.take(told(2, [row('b', 'changed')]));
		expect(rows.all().map(({ id }) => id)).toEqual(['a']);
		expect(rows.row('b')).toBeNull();
	});

	it('outlive a list of all rows that was read before they came', () => {
		const rows = new StoredRows();
		rows.adopt([row('a', 'A')], 1);
		rows.take(told(3, [row('new', 'N')], ['a', 'new']));
		rows.adopt([row('a', 'A')], 2);
		expect(rows.all().map(({ id }) => id)).toEqual(['a', 'new']);
		rows.adopt([row('a', 'A'), row('new', 'N')], 4);
		rows.adopt([row('a', 'A')], 1);
		expect(rows.revision).toBe(4);
		rows.adopt([row('a', 'A')], 5);
		expect(rows.row('new')).toBeNull();
	});

	it('say which may be others now, and that there is another one when its cells come after its place', () => {
		const rows = new StoredRows();
		rows.adopt([row('a', 'A')], 1);
		expect(rows.take(told(2, [row('a', 'second')]))).toEqual(new Set(['a']));
		expect(rows.take(told(4, [], ['a', 'late']))).toBeNull();
		expect(rows.take(told(3, [row('late', 'L')]))).toBeNull();
		expect(rows.take(told(5, [row('late', 'later')]))).toEqual(new Set(['late']));
	});

	it('take what a conflict tells until the row itself is told, and nothing of a row that is not there', () => {
		const rows = new StoredRows();
		rows.adopt([row('a', 'A'), row('b', 'B')], 1);
		rows.take(told(2, [], ['a']));
		const theirs = (id: string) => ({
			row: id,
			field: 'location' as const,
			before: null,
			yours: 'mine',
			theirs: 'theirs'
		});
		expect(rows.takeTheirs([theirs('a'), theirs('b')])).toEqual(new Set(['a']));
		expect(rows.row('a')?.cells).toEqual({ location: 'theirs' });
		rows.take(told(1, [row('a', 'as stored')]));
		expect(rows.row('a')?.cells).toEqual({ location: 'as stored' });
	});
});

const built = buildEngine(demoTechnicalBook);
if (!built.ok) throw new Error('the demo shop book does not load');
const { engine } = built;

/** One thing that happens: somebody does something, or something arrives at the page that is looked at. */
const step = fc.record({
	what: fc.constantFrom(
		'own',
		'own',
		'other',
		'other',
		'send',
		'send',
		'answer',
		'answer',
		'news',
		'news',
		'lose',
		'again'
	),
	kind: fc.constantFrom('set', 'set', 'add', 'remove', 'move'),
	at: fc.nat(6),
	beside: fc.nat(6),
	text: fc.constantFrom('p', 'q', 'r')
});

type Step = typeof step extends fc.Arbitrary<infer T> ? T : never;

/** A change as a person who sees these rows would make it. */
function changeOn(rows: readonly OpeningRow[], { kind, at, beside, text }: Step, id: string): Change[] {
	const one = rows[at % Math.max(1, rows.length)];
	const other = rows[beside % Math.max(1, rows.length)];
	if (kind === 'add')
		return [{ kind: 'addRow', row: id, after: other?.id ?? null, cells: { location: text } }];
	if (!one) return [];
	if (kind === 'remove') return [{ kind: 'removeRow', row: one.id, after: null, cells: one.cells }];
	if (kind === 'move')
		return one.id === other?.id ? [] : [{ kind: 'moveRow', row: one.id, after: other?.id ?? null }];
	return [
		{
			kind: 'setCell',
			row: one.id,
			field: 'location',
			before: (one.cells.location ?? null) as never,
			after: text
		}
	];
}

interface News extends ToldRows {
	readonly after: number;
}

/** What a server does with edits, as plainly as it can be written: one list of rows and one revision. */
class Server {
	rows: readonly SheetRow[] = [row('a', 'A'), row('b', 'B'), row('c', 'C')].map((one) => ({
		...one,
		removed: false
	}));
	revision = 1;
	readonly deeds: { readonly ids: readonly string[]; readonly reordered: boolean }[] = [];
	readonly #known = new Map<string, ToldRows>();

	get live(): OpeningRow[] {
		return this.rows.filter(({ removed }) => !removed).map(({ id, cells }) => ({ id, cells }));
	}

	#told(ids: readonly string[], reordered: boolean): ToldRows {
		return {
			revision: this.revision,
			rows: this.live.filter(({ id }) => ids.includes(id)),
			order: reordered ? this.live.map(({ id }) => id) : null
		};
	}

	/** Null where it meets what others did: then nothing of it is stored. */
	apply({ id, changes }: Edit): ToldRows | null {
		const known = this.#known.get(id);
		if (known) return known;
		const applied = applyChanges(this.rows, changes, { reinstate: false });
		if (!applied.ok) return null;
		this.rows = applied.rows;
		this.revision++;
		const ids = [...applied.touched, ...applied.removed];
		this.deeds.push({ ids, reordered: applied.reordered });
		const answer = this.#told(ids, applied.reordered);
		this.#known.set(id, answer);
		return answer;
	}

	newsAfter(after: number): News {
		const deeds = this.deeds.slice(after - 1);
		return {
			after,
			...this.#told(
				deeds.flatMap(({ ids }) => ids),
				deeds.some(({ reordered }) => reordered)
			)
		};
	}
}

describe('a page that hears of the edits of others', () => {
	it('ends with the rows of the server, whatever comes in which order, twice or not at all', () => {
		fc.assert(
			fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
				const server = new Server();
				const page = new WorkedRows(engine, 'imperial');
				let waiting: Edit[] = [];
				page.adopt(server.live, server.revision);
				page.show(waiting);
				/** Revision that the news told next begin at, as the server keeps it. */
				let toldTo = server.revision;
				const onTheWay: (News | null)[] = [];
				const answers: { readonly edit: Edit; readonly answer: ToldRows | null }[] = [];
				let sent: Edit | null = null;

				const hear = (news: News): void => {
					if (!page.hear(news)) page.adopt(server.live, server.revision);
				};
				const takeAnswer = (): void => {
					const next = answers.shift();
					if (!next) return;
					sent = null;
					waiting = waiting.filter(({ id }) => id !== next.edit.id);
					// Where it met another's the person lets it go here.
					if (next.answer) page.store(next.answer);
				};
				const send = (): void => {
					const [edit] = waiting;
					if (!edit || sent) return;
					sent = edit;
					answers.push({ edit, answer: server.apply(edit) });
				};
				const tell = (): void => {
					if (server.revision === toldTo) return;
					onTheWay.push(server.newsAfter(toldTo));
					toldTo = server.revision;
				};

				for (const [at, one] of steps.entries()) {
					switch (one.what) {
						case 'own': {
							const seen = page.order.flatMap((id) => page.row(id) ?? []);
							const changes = changeOn(seen, one, `own-${at}`);
							if (changes.length > 0) waiting = [...waiting, { id: `e${at}`, title: 'Own', changes }];
							break;
						}
						case 'other': {
							const changes = changeOn(server.live, one, `other-${at}`);
							if (changes.length > 0) server.apply({ id: `o${at}`, title: 'Other', changes });
							break;
						}
						case 'send':
							send();
							break;
						case 'answer':
							takeAnswer();
							break;
						case 'news': {
							tell();
							// Not always the first one that was sent.
							const [news] = onTheWay.splice(one.at % Math.max(1, onTheWay.length), 1);
							if (news) hear(news);
							break;
						}
						case 'lose':
							tell();
							onTheWay.shift();
							break;
						case 'again': {
							const news = onTheWay[0];
							if (news) hear(news);
						}
					}
					page.show(waiting);
				}
				for (let rest = waiting.length; rest > 0; rest--) {
					send();
					takeAnswer();
				}
				while (answers.length > 0) takeAnswer();
				tell();
				for (const news of onTheWay) if (news) hear(news);
				// A page that connects again names what it knows.
				hear(server.newsAfter(page.revision));
				page.show(waiting);
				expect(waiting).toEqual([]);
				expect(page.order.map((id) => ({ id, cells: page.row(id)?.cells }))).toEqual(server.live);
			}),
			{ numRuns: 400 }
		);
	});
});
