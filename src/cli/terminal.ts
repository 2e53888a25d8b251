/** What the commands of the terminal share. */
import { resolve } from 'node:path';
import { parseArgs, type ParseArgsConfig } from 'node:util';

/** Something the person has to put right; each line names the place. */
export class BadInput extends Error {
	readonly lines: readonly string[];
	constructor(...lines: string[]) {
		super(lines.join('\n'));
		this.lines = lines;
	}
}

/** Paths are meant from where the person stands; npm changes the folder. */
export const fromCaller = (path: string): string => resolve(process.env.INIT_CWD ?? process.cwd(), path);

export const print = (text: string): void => {
	process.stdout.write(`${text}\n`);
};

/** @throws BadInput for an option that is not known or lacks its value. */
export function argumentsOf<T extends NonNullable<ParseArgsConfig['options']>>(
	args: readonly string[],
	options: T
) {
	try {
		return parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
	} catch (error) {
		throw new BadInput(error instanceof Error ? error.message : 'the arguments are not understood');
	}
}
