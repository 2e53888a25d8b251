/** Which openings can have everything they need: the question in whole numbers, made as small as it gets. */

/** Openings in the order they are wanted, and what each needs. */
export interface Wanting {
	/** Needs of each opening: rows (kinds of part) with whole numbers above 0, safe integers. */
	readonly needs: readonly ReadonlyMap<number, number>[];
	/** What is here of each row, whole numbers of 0 or more. */
	readonly supply: readonly number[];
}

/** Openings that need the same of everything that is scarce: which of them is chosen makes no difference to the others. */
interface Alike {
	/** Places in the wanted order; no more than can ever be chosen. */
	readonly members: number[];
	readonly needs: ReadonlyMap<number, number>;
}

/** Openings that share scarce parts, directly or through others. */
export interface Cluster {
	/** By their first member. */
	readonly alike: readonly Alike[];
	/** Rows with what is here of them; rows that hold nothing back are left out. */
	readonly rows: readonly { readonly row: number; readonly supply: number }[];
}

export interface Reduced {
	/** Openings that take nothing from anybody: chosen in any case. */
	readonly free: readonly number[];
	/** The smallest first. */
	readonly clusters: readonly Cluster[];
}

const keyOf = (needs: ReadonlyMap<number, number>): string =>
	[...needs]
		.sort(([a], [b]) => a - b)
		.map(([row, need]) => `${row}:${need}`)
		.join(' ');

/** Groups by equal needs; the groups by their first member. */
function groupAlike(groups: readonly Alike[]): Alike[] {
	const found = new Map<string, Alike>();
	for (const { members, needs } of groups) {
		const key = keyOf(needs);
		const group = found.get(key);
		if (group) group.members.push(...members);
		else found.set(key, { members: [...members], needs });
	}
	for (const { members } of found.values()) members.sort((a, b) => a - b);
	return [...found.values()].sort((a, b) => (a.members[0] ?? 0) - (b.members[0] ?? 0));
}

/** No more members than the parts of each row are enough for; the first wanted stay. */
function trimmed({ members, needs }: Alike, supply: readonly number[]): Alike {
	let most = members.length;
	for (const [row, need] of needs) most = Math.min(most, Math.floor((supply[row] ?? 0) / need));
	return { members: members.slice(0, most), needs };
}

/** Rows that can hold something back: used by more than one group, and not enough for all. */
function scarceRows(groups: readonly Alike[], supply: readonly number[]): Set<number> {
	const wanted = new Map<number, { amount: number; users: number }>();
	for (const { members, needs } of groups)
		for (const [row, need] of needs) {
			const one = wanted.get(row) ?? { amount: 0, users: 0 };
			wanted.set(row, { amount: one.amount + need * members.length, users: one.users + 1 });
		}
	return new Set(
		[...wanted].flatMap(([row, { amount, users }]) => (users > 1 && amount > (supply[row] ?? 0) ? [row] : []))
	);
}

/**
 * Of rows that hold back in the same way only the tightest is kept: left and right guides are mostly needed by the same
 * openings. Rows are compared after division by what all their needs have in common.
 */
function tightestRows(
	groups: readonly Alike[],
	rows: Iterable<number>,
	supply: readonly number[]
): Set<number> {
	const columns = new Map<number, [group: number, need: number][]>([...rows].map((row) => [row, []]));
	groups.forEach(({ needs }, group) => {
		for (const [row, need] of needs) columns.get(row)?.push([group, need]);
	});
	const tightest = new Map<string, { row: number; supply: number }>();
	for (const [row, column] of columns) {
		const common = column.reduce((divisor, [, need]) => commonDivisor(divisor, need), 0);
		const key = column.map(([group, need]) => `${group}:${need / common}`).join(' ');
		const room = Math.floor((supply[row] ?? 0) / common);
		const known = tightest.get(key);
		if (!known || room < known.supply) tightest.set(key, { row, supply: room });
	}
	return new Set([...tightest.values()].map(({ row }) => row));
}

function commonDivisor(a: number, b: number): number {
	while (b !== 0) [a, b] = [b, a % b];
	return a;
}

/** Divides a row by what all its needs have in common; parts that no whole number of needs can use drop out. */
function divided(alike: readonly Alike[], supply: readonly number[]): Cluster {
	const divisors = new Map<number, number>();
	for (const { needs } of alike)
		for (const [row, need] of needs) divisors.set(row, commonDivisor(divisors.get(row) ?? 0, need));
	return {
		alike: alike.map(({ members, needs }) => ({
			members,
			needs: new Map([...needs].map(([row, need]) => [row, need / (divisors.get(row) ?? 1)]))
		})),
		rows: [...divisors].map(([row, divisor]) => ({ row, supply: Math.floor((supply[row] ?? 0) / divisor) }))
	};
}

/** Splits groups into those that share no row with one another. */
function clustersOf(groups: readonly Alike[]): Alike[][] {
	const leader = groups.map((_, index) => index);
	const find = (index: number): number => {
		let at = index;
		for (let up = leader[at]; up !== undefined && up !== at; up = leader[at]) at = up;
		leader[index] = at;
		return at;
	};
	const first = new Map<number, number>();
	groups.forEach(({ needs }, index) => {
		for (const row of needs.keys()) {
			const other = first.get(row);
			if (other === undefined) first.set(row, index);
			else leader[find(index)] = find(other);
		}
	});
	const clusters = new Map<number, Alike[]>();
	groups.forEach((group, index) => {
		const at = find(index);
		clusters.set(at, [...(clusters.get(at) ?? []), group]);
	});
	return [...clusters.values()];
}

/**
 * Leaves out what decides nothing: openings that cannot be had at all, kinds of part that are enough for all who want
 * them or wanted by one group only, members beyond what is here. No step loses the most that can be chosen, nor the set
 * of that size that comes first in the wanted order.
 */
export function reduce({ needs, supply }: Wanting): Reduced {
	let groups = groupAlike(needs.map((one, at) => ({ members: [at], needs: one })));
	for (;;) {
		const kept = groups.map((group) => trimmed(group, supply)).filter(({ members }) => members.length > 0);
		const rows = tightestRows(kept, scarceRows(kept, supply), supply);
		const next = groupAlike(
			kept.map(({ members, needs: all }) => ({
				members,
				needs: new Map([...all].filter(([row]) => rows.has(row)))
			}))
		);
		const before = groups.reduce(
			(sum, group) => sum + group.needs.size + group.members.length,
			groups.length
		);
		const after = next.reduce((sum, group) => sum + group.needs.size + group.members.length, next.length);
		groups = next;
		if (after === before) break;
	}
	return {
		free: groups.flatMap((group) => (group.needs.size === 0 ? group.members : [])),
		clusters: clustersOf(groups.filter((group) => group.needs.size > 0))
			.map((alike) => divided(alike, supply))
			.sort((a, b) => a.alike.length - b.alike.length)
	};
}
