/** Reads the sources: what each file imports, and which names of the surroundings (clock, chance, network) it uses. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import ts from 'typescript';

export interface Import {
	readonly specifier: string;
	/** Nothing of it is left when the types are stripped. */
	readonly typeOnly: boolean;
}

export interface SourceFile {
	/** From the project's folder, with `/`. */
	readonly path: string;
	readonly imports: readonly Import[];
	/** `Math.random`, `Date.now`, `fetch`, `process` … as written. */
	readonly surroundings: readonly string[];
}

const surroundings: ReadonlySet<string> = new Set([
	'fetch',
	'process',
	'performance',
	'crypto',
	'setTimeout',
	'setInterval',
	'queueMicrotask',
	'localStorage',
	'sessionStorage',
	'document',
	'window',
	'globalThis'
]);

function typeOnlyImport(node: ts.ImportDeclaration): boolean {
	const clause = node.importClause;
	if (!clause) return false;
	if (clause.phaseModifier === ts.SyntaxKind.TypeKeyword) return true;
	const bindings = clause.namedBindings;
	return (
		clause.name === undefined &&
		bindings !== undefined &&
		ts.isNamedImports(bindings) &&
		bindings.elements.length > 0 &&
		bindings.elements.every((element) => element.isTypeOnly)
	);
}

/** The script of a component; a file that is a script is all script. */
function scriptOf(path: string, text: string): string {
	if (!path.endsWith('.svelte')) return text;
	return [...text.matchAll(/<script[^>]*>([\s\S]*?)<\/script>/gu)].map((match) => match[1] ?? '').join('\n');
}

export function readSource(path: string, text: string): SourceFile {
	const imports: Import[] = [];
	const used = new Set<string>();
	const file = ts.createSourceFile(
		path,
		scriptOf(path, text),
		ts.ScriptTarget.ESNext,
		true,
		ts.ScriptKind.TS
	);
	const named = (node: ts.Expression | undefined, typeOnly: boolean): void => {
		if (node && ts.isStringLiteralLike(node)) imports.push({ specifier: node.text, typeOnly });
	};
	const visit = (node: ts.Node): void => {
		if (ts.isImportDeclaration(node)) named(node.moduleSpecifier, typeOnlyImport(node));
		else if (ts.isExportDeclaration(node)) named(node.moduleSpecifier, node.isTypeOnly);
		else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) {
			const { literal } = node.argument;
			if (ts.isStringLiteral(literal)) imports.push({ specifier: literal.text, typeOnly: true });
		} else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword)
			named(node.arguments[0], false);
		else if (ts.isNewExpression(node) && ts.isIdentifier(node.expression)) {
			if (node.expression.text === 'Date' && (node.arguments ?? []).length === 0) used.add('new Date()');
			// A module that is loaded by its address, such as a worker's.
			if (node.expression.text === 'URL') named(node.arguments?.[0], false);
		} else if (ts.isPropertyAccessExpression(node) && ts.isIdentifier(node.expression)) {
			const access = `${node.expression.text}.${node.name.text}`;
			if (access === 'Math.random' || access === 'Date.now') used.add(access);
		}
		if (ts.isIdentifier(node) && surroundings.has(node.text) && isFree(node)) used.add(node.text);
		ts.forEachChild(node, visit);
	};
	visit(file);
	return { path, imports, surroundings: [...used] };
}

/** The name stands for the thing of the surroundings, not for a member or a name of the file's own. */
function isFree(node: ts.Identifier): boolean {
	const { parent } = node;
	const isMember =
		(ts.isPropertyAccessExpression(parent) && parent.name === node) ||
		(ts.isPropertyAssignment(parent) && parent.name === node) ||
		ts.isPropertySignature(parent) ||
		ts.isTypeReferenceNode(parent);
	return !isMember && (ts.isCallExpression(parent) || ts.isPropertyAccessExpression(parent));
}

/** All sources below a folder of the project. */
export function readSources(root: string, folder: string): SourceFile[] {
	return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile() && /\.(ts|svelte|mjs|js)$/u.test(entry.name))
		.map((entry) => join(entry.parentPath, entry.name))
		.sort()
		.map((file) => readSource(relative(root, file).split(sep).join('/'), readFileSync(file, 'utf8')));
}
