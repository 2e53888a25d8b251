/** Every check that is a rule, live, for every opening: TRUE where it is raised. They stand beside the list of checks. */
import { checkRules, type CheckRule } from '../../takeoff/rules/checks.ts';
import type { Severity } from '../../takeoff/result.ts';
import { look } from './look.ts';
import type { PlannedColumn } from './planned-column.ts';
import { guarded, live, openingAt, type WorkbookJob } from './workbook-job.ts';

const severities = ['stop', 'caution', 'note'] as const;

/** In the order of their columns: those of one severity stand together. */
const ordered: readonly CheckRule[] = severities.flatMap((severity) =>
	checkRules.filter((check) => check.severity === severity)
);

/** Codes of the checks that are rules, in the order of their columns. */
export const flagCodes = (severity?: Severity): string[] =>
	ordered.filter((check) => severity === undefined || check.severity === severity).map(({ code }) => code);

/** Rule-checks of one severity that are raised for the opening at a position. */
export function raisedCount(job: WorkbookJob, at: number, severity: Severity): number {
	const codes = new Set(flagCodes(severity));
	return openingAt(job, at).checks.filter(({ code }) => codes.has(code)).length;
}

/** What a check speaks of: its own flag, and the quantities its sentence names. */
const spokenOf = ({ code, text }: CheckRule): string[] => [
	code,
	...Array.from(text.matchAll(/\{([\w.]+)\}/gu), ([, name = '']) => name)
];

export function flagColumns(job: WorkbookJob): PlannedColumn[] {
	return ordered.map((check): PlannedColumn => ({
		name: check.code,
		band: `Live: ${check.severity}s`,
		aside: true,
		column: () => {
			const formula = job.places.formula(job.engine.rules, check.code, 'Checks');
			const raised = (at: number): boolean =>
				openingAt(job, at).checks.some(({ code }) => code === check.code);
			return {
				heading: check.code,
				width: Math.max(8, check.code.length * 0.8),
				style: look('worked', { align: 'center' }),
				cell:
					formula === null
						? raised
						: // A flag that is not known is an empty text, and no check is raised by it.
							live(guarded(job, `(${formula})=TRUE`, spokenOf(check), 'Checks', 'FALSE'), raised)
			};
		}
	}));
}
