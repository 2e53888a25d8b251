/** Every address of the program, out of its file tree: a new one is there by itself. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface Endpoint {
	/** As the folders are called: `/api/jobs/[job]/print`. */
	readonly route: string;
	/** Of an endpoint, as it exports them; `GET` of a page. */
	readonly methods: readonly string[];
	readonly page: boolean;
}

const root = join('src', 'routes');

export function allRoutes(folder = ''): Endpoint[] {
	const entries = readdirSync(join(root, folder), { withFileTypes: true });
	const route = folder === '' ? '/' : `/${folder.replaceAll('\\', '/')}`;
	const own = entries.flatMap(({ name }): Endpoint[] => {
		if (name === '+page.svelte') return [{ route, methods: ['GET'], page: true }];
		if (name !== '+server.ts') return [];
		const text = readFileSync(join(root, folder, name), 'utf8');
		const methods = Array.from(
			text.matchAll(/^export (?:const|async function|function) ([A-Z]+)\b/gmu),
			([, method = '']) => method
		);
		if (methods.length === 0) throw new Error(`${route} exports no method that this test can read`);
		return [{ route, methods, page: false }];
	});
	const below = entries.filter((entry) => entry.isDirectory());
	return [...own, ...below.flatMap(({ name }) => allRoutes(join(folder, name)))];
}

/** An address with its parameters filled in. @throws Error for a parameter that has no value here. */
export const addressOf = (route: string, values: Readonly<Record<string, string>>): string =>
	route.replaceAll(/\[([^\]]+)\]/gu, (_, name: string) => {
		const value = values[name];
		if (value === undefined) throw new Error(`${route}: what is [${name}]? Say it in this test.`);
		return encodeURIComponent(value);
	});
