/**
 * A reader of XML for the tests alone, which shares nothing with the program's: it walks over the text of a document
 * that has been found well-formed by another program, and knows only what our documents use.
 */
import { execFileSync, spawnSync } from 'node:child_process';

export interface Node {
	readonly space: string;
	readonly name: string;
	readonly attributes: Readonly<Record<string, string>>;
	readonly children: Node[];
	text: string;
}

const unescape = (text: string): string =>
	text
		.replace(/&#(\d+);/gu, (_, code: string) => String.fromCodePoint(Number(code)))
		.replaceAll('&lt;', '<')
		.replaceAll('&gt;', '>')
		.replaceAll('&quot;', '"')
		.replaceAll('&apos;', "'")
		.replaceAll('&amp;', '&');

/** Namespaces by prefix, as they are declared on the root. */
function spacesOf(attributes: Readonly<Record<string, string>>): ReadonlyMap<string, string> {
	return new Map(
		Object.entries(attributes).flatMap(([name, value]) => {
			const prefix = name === 'xmlns' ? '' : /^xmlns:(.+)$/u.exec(name)?.[1];
			return prefix === undefined ? [] : [[prefix, value] as const];
		})
	);
}

/** The tree of a document whose namespaces are all declared on its root. @throws Error when it has something else in it. */
export function treeOf(xml: string): Node {
	const open: Node[] = [];
	let spaces: ReadonlyMap<string, string> | null = null;
	let root: Node | null = null;
	for (const [token] of xml.replace(/<!--[\s\S]*?-->/gu, '').matchAll(/<[^>]+>|[^<]+/gu)) {
		const top = open.at(-1);
		if (!token.startsWith('<')) {
			if (top) top.text += unescape(token);
			continue;
		}
		if (token.startsWith('<?')) continue;
		if (token.startsWith('<!')) throw new Error(`${token} is not expected here`);
		if (token.startsWith('</')) {
			open.pop();
			continue;
		}
		const [, name = '', rest = '', closed] =
			/^<([^\s/>]+)((?:\s+[\w:]+="[^"]*")*)\s*(\/?)>$/u.exec(token) ?? [];
		const attributes: Record<string, string> = {};
		for (const [, key = '', value = ''] of rest.matchAll(/([\w:]+)="([^"]*)"/gu))
			attributes[key] = unescape(value);
		spaces ??= spacesOf(attributes);
		const [prefix, local] = name.includes(':') ? name.split(':') : ['', name];
		const space = spaces.get(prefix ?? '');
		if (space === undefined || local === undefined) throw new Error(`${token} has no namespace`);
		const node: Node = { space, name: local, attributes, children: [], text: '' };
		if (top) top.children.push(node);
		else root = node;
		if (closed === '') open.push(node);
	}
	if (root === null || open.length > 0) throw new Error('the document does not end');
	return root;
}

/** Whether libxml2 (`xmllint`) is on this machine. */
export const hasXmllint = spawnSync('xmllint', ['--version']).error === undefined;

/** Whether libxml2 takes it for well-formed; its complaint if not. */
export function complaintOfXmllint(xml: string): string | null {
	try {
		execFileSync('xmllint', ['--noout', '--nonet', '-'], { input: xml, stdio: ['pipe', 'pipe', 'pipe'] });
		return null;
	} catch (problem) {
		return String((problem as { stderr?: Buffer }).stderr ?? problem);
	}
}

export const find = (node: Node, path: string): Node[] =>
	path
		.split('/')
		.reduce<Node[]>(
			(nodes, step) => nodes.flatMap((at) => at.children.filter(({ name }) => name === step)),
			[node]
		);

export const text = (node: Node, path: string): string | undefined => find(node, path)[0]?.text;
