/** Which way imports may go. The rooms of `src/lib` are a house, ground floor first: a room imports only from below. */
import { posix } from 'node:path';
import type { Import, SourceFile } from './sources.ts';

export const rooms = [
	'quantity',
	'rulebook',
	'shopbook',
	'takeoff',
	'price',
	'delivery',
	'fieldwork',
	'drawing',
	'exchange',
	'changes',
	'client',
	'server'
] as const;

/** Rooms that know nothing but their arguments, so that they run anywhere and give the same again. */
const pureRooms: ReadonlySet<string> = new Set([
	'quantity',
	'rulebook',
	'shopbook',
	'takeoff',
	'price',
	'delivery',
	'fieldwork',
	'drawing'
]);

/** Packages that only some places may use. */
const keptPackages: readonly { readonly name: RegExp; readonly places: readonly string[] }[] = [
	{ name: /^(kysely|node:sqlite|pg)(\/|$)/u, places: ['src/lib/server/storage/'] },
	{ name: /^better-auth(\/|$)/u, places: ['src/lib/server/identity/'] },
	{ name: /^idb(\/|$)/u, places: ['src/lib/client/'] },
	{ name: /^exceljs(\/|$)/u, places: ['src/lib/exchange/workbook/'] },
	{ name: /^web-ifc(\/|$)/u, places: ['src/lib/exchange/building-model/'] },
	{ name: /^ag-grid-/u, places: ['src/lib/client/grid/'] },
	{ name: /^jsep(\/|$)/u, places: ['src/lib/rulebook/'] },
	{ name: /^csv-parse(\/|$)/u, places: ['src/lib/exchange/'] },
	{ name: /^pdfmake(\/|$)/u, places: ['src/lib/exchange/print/'] },
	{
		name: /^(svelte|@sveltejs|\$app)(\/|$)/u,
		places: ['src/lib/client/', 'src/lib/server/http/', 'src/routes/', 'src/hooks.', 'src/app.d.ts']
	}
];
const purePackages: ReadonlySet<string> = new Set(['decimal.js', 'jsep', 'zod']);

/** A file of the project as a path, or null where the import names a package. */
function fileOf(from: string, specifier: string): string | null {
	if (specifier.startsWith('$lib/')) return `src/lib/${specifier.slice('$lib/'.length)}`;
	if (specifier.startsWith('.')) return posix.normalize(posix.join(posix.dirname(from), specifier));
	return null;
}

const roomOf = (path: string): string | null => /^src\/lib\/([^/]+)\//u.exec(path)?.[1] ?? null;
const isTest = (path: string): boolean => path.endsWith('.test.ts');
const inServerRoute = (path: string): boolean =>
	/(^src\/hooks\.server\.ts|\+(page|layout)\.server\.ts|\+server\.ts)$/u.test(path);
/** Files that are only written or read on the server. */
const serverFiles = (path: string): boolean => /^src\/lib\/exchange\/(workbook|print)\//u.test(path);
const generated = (specifier: string): boolean => specifier === './$types';

function wrongFile(from: string, to: string, { typeOnly }: Import): string | null {
	const [home, room] = [roomOf(from), roomOf(to)];
	if (to.startsWith('src/lib/server/storage/') && !/^src\/lib\/server\/(storage|operations)\//u.test(from))
		return 'only operations reach the storage';
	if (home === null) {
		const toServer = room === 'server' || serverFiles(to);
		if (from.startsWith('src/routes/') && !inServerRoute(from) && toServer)
			return 'what the browser loads never imports the server, the workbook or the print';
		if (from.startsWith('src/cli/') && (room === 'client' || to.startsWith('src/routes/')))
			return 'the terminal has no screen';
		return null;
	}
	if (room === null)
		return to.startsWith('src/lib/')
			? 'a file of src/lib belongs into a room'
			: 'a room never imports a route';
	if (!rooms.some((name) => name === home)) return `${home} is not a room`;
	if (home === 'client' && serverFiles(to)) return 'the browser never imports the workbook or the print';
	if (from.startsWith('src/lib/server/storage/') && !to.startsWith('src/lib/server/storage/') && !typeOnly)
		return 'the storage takes only types from other rooms';
	if (
		from.startsWith('src/lib/server/identity/') &&
		!to.startsWith('src/lib/server/identity/') &&
		room !== 'changes'
	)
		return 'identity stands alone';
	if (
		/^src\/(routes\/|hooks\.server)/u.test(from) &&
		to.startsWith('src/lib/server/operations/') &&
		!/\/(operations|opened-services)\.ts$/u.test(to) &&
		!typeOnly
	)
		return 'operations are reached through their door only';
	if (from.startsWith('src/lib/server/operations/') && to.startsWith('src/lib/server/http/'))
		return 'operations know nothing of requests';
	const [floor, wanted] = [rooms.indexOf(home as 'client'), rooms.indexOf(room as 'client')];
	return wanted > floor ? `${home} stands below ${room}` : null;
}

function wrongPackage(from: string, specifier: string): string | null {
	const home = roomOf(from);
	if (home !== null && pureRooms.has(home)) {
		const name = specifier.split('/')[0] ?? '';
		if (!purePackages.has(name)) return `${home} uses nothing but ${[...purePackages].join(', ')}`;
	}
	const kept = keptPackages.find(({ name }) => name.test(specifier));
	if (kept && !kept.places.some((place) => from.startsWith(place)))
		return `only ${kept.places.join(', ')} may use it`;
	if (specifier.startsWith('node:') && (home === 'client' || from.endsWith('.svelte')))
		return 'the browser has no Node';
	return null;
}

/** What is wrong with a file, a sentence each; empty when nothing is. */
export function wrongDirections(source: SourceFile): string[] {
	const problems: string[] = [];
	if (isTest(source.path)) return problems;
	for (const one of source.imports) {
		if (generated(one.specifier)) continue;
		const to = fileOf(source.path, one.specifier);
		const why = to === null ? wrongPackage(source.path, one.specifier) : wrongFile(source.path, to, one);
		if (why !== null) problems.push(`${source.path} imports ${one.specifier}: ${why}`);
		if (to !== null && !/\.(ts|svelte|json|css|js|mjs)$/u.test(to))
			problems.push(`${source.path} imports ${one.specifier}: its name has no extension`);
	}
	const home = roomOf(source.path);
	if (home !== null && pureRooms.has(home))
		for (const name of source.surroundings)
			problems.push(`${source.path} uses ${name}: ${home} knows no clock, chance, network or process`);
	return problems;
}
