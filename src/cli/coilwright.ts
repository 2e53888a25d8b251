/**
 * The program from a terminal: `npm run --silent coilwright -- COMMAND …`.
 *
 * Exit code: 0 done, 1 done and something has to be cleared first, 2 bad input.
 */
import { BadInput, print } from './terminal.ts';

interface Command {
	/** What may stand behind `coilwright`, a line each. */
	readonly usage: readonly string[];
	/** @returns the exit code. */
	run(args: readonly string[]): Promise<number>;
}

/** Each is loaded when it is asked for. */
const commands: Readonly<Record<string, Command>> = {
	takeoff: {
		usage: ['takeoff SCHEDULE [--book BOOK.json] [--units imperial|metric] [--json | --out FILE.xlsx]'],
		run: async (args) => (await import('./schedule-commands.ts')).takeoffCommand(args)
	},
	compare: {
		usage: ['compare SCHEDULE PACKINGLIST... [--book BOOK.json] [--units imperial|metric] [--json]'],
		run: async (args) => (await import('./schedule-commands.ts')).compareCommand(args)
	},
	account: {
		usage: [
			'account --company COMPANY --name NAME --email ADDRESS [--demo]',
			'account --reset-password --email ADDRESS',
			'account --new-secret'
		],
		run: async (args) => (await import('./account-command.ts')).accountCommand(args)
	},
	backup: {
		usage: ['backup FILE'],
		run: async (args) => (await import('./backup-commands.ts')).backupCommand(args)
	},
	restore: {
		usage: ['restore FILE'],
		run: async (args) => (await import('./backup-commands.ts')).restoreCommand(args)
	},
	'move-company': {
		usage: ['move-company --company NAME --to postgres://...'],
		run: async (args) => (await import('./backup-commands.ts')).moveCompanyCommand(args)
	}
};

const usage = `Usage:
${Object.values(commands)
	.flatMap((command) => command.usage.map((line) => `  coilwright ${line}`))
	.join('\n')}

SCHEDULE and PACKINGLIST are .xlsx or delimited text. Without --book the demo shop book (invented) is used.
account, backup and restore work on the database of COILWRIGHT_DATA or DATABASE_URL, move-company on that of the folder; the password is asked for, or read from a pipe.
Exit code: 0 done, 1 something has to be cleared first, 2 bad input.`;

async function main([name, ...args]: readonly string[]): Promise<number> {
	if (name === '--help' || args.includes('--help')) {
		print(usage);
		return 0;
	}
	const command = name !== undefined && Object.hasOwn(commands, name) ? commands[name] : undefined;
	if (!command)
		throw new BadInput(name === undefined ? 'Nothing to do.' : `${name}: not understood.`, '', usage);
	return command.run(args);
}

try {
	process.exitCode = await main(process.argv.slice(2));
} catch (error) {
	if (!(error instanceof BadInput)) throw error;
	process.stderr.write(`${error.lines.join('\n')}\n`);
	process.exitCode = 2;
}
