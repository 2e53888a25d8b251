/**
 * The search of chapter 2: pipes lightest up; within a pipe, brackets smallest up; then deflection and stress; then a
 * drive that has torque, turns and duty and enters the bore, or, by hand, springs that last and fit in. The first that
 * passes all is taken. Where no pipe takes springs, the first that passes the rest is taken, and a stop says that none fit.
 * Every trial is a row for the same compiled rules that everything else is computed with; nothing is restated here.
 */
import type { Program, RuleBook } from '../rulebook/rule-book.ts';
import { none } from '../shopbook/tables.ts';
import type { TechnicalBook } from '../shopbook/schema.ts';

/** A condition the search tests, and the two quantities it compares, for the message. */
export interface Criterion {
	readonly flag: string;
	readonly have: string;
	readonly need: string;
	/** `have` must be at least (or at most) `need`. */
	readonly sense: 'atLeast' | 'atMost';
}

export const barrelCriteria: readonly Criterion[] = [
	{ flag: 'bracketFits', have: 'bracketSize', need: 'bracketNeeded', sense: 'atLeast' },
	{ flag: 'deflectionPasses', have: 'barrelDeflection', need: 'deflectionLimit', sense: 'atMost' },
	{ flag: 'stressPasses', have: 'barrelStress', need: 'stressLimit', sense: 'atMost' }
];

export const driveCriteria: readonly Criterion[] = [
	{ flag: 'driveEnters', have: 'drive.leastBore', need: 'barrel.bore', sense: 'atMost' },
	{ flag: 'driveStrongEnough', have: 'drive.torque', need: 'requiredTorque', sense: 'atLeast' },
	{ flag: 'driveTurnsEnough', have: 'drive.turns', need: 'driveTurns', sense: 'atLeast' },
	{ flag: 'driveDutyEnough', have: 'drive.thermalMinutes', need: 'dutyNeeded', sense: 'atLeast' }
];

/** Row numbers in the tables of barrels, brackets and drives. */
interface Choice {
	readonly barrel: number;
	readonly bracket: number;
	readonly drive: number;
}

/** One trial that failed: at which criterion, and how far off. */
export interface Failure extends Choice {
	readonly criterion: Criterion;
	/** Values in base units. */
	readonly have: number;
	readonly need: number;
}

export interface Search {
	/** Quantities the caller hands over for the opening (base units, keys as row numbers). */
	readonly given: readonly string[];
	/**
	 * @param read value of a given quantity for this opening
	 * @param motor whether a tube motor is to be chosen
	 * @param onFailure told of every trial that failed, in the order tried
	 */
	run(read: (id: string) => number, motor: boolean, onFailure?: (failure: Failure) => void): Choice | null;
}

const ascending = (values: readonly string[]): number[] =>
	values.map((_, i) => i).sort((a, b) => Number(values[a]) - Number(values[b]));

/** How near a failed trial came: 1 is just passed. */
const nearness = ({ criterion, have, need }: Failure): number =>
	criterion.sense === 'atLeast' ? have / need : need / have;

const depth = (failure: Failure): number => [...barrelCriteria, ...driveCriteria].indexOf(failure.criterion);

/** The better of two failed trials: the one that got further, then the one that came nearer. */
export const betterTry = (a: Failure | null, b: Failure): Failure =>
	a === null || depth(b) > depth(a) || (depth(b) === depth(a) && nearness(b) > nearness(a)) ? b : a;

export function buildSearch(rules: RuleBook, book: TechnicalBook, before: ReadonlySet<string>): Search {
	const barrels = ascending(book.barrels.map((row) => row.weight));
	const brackets = ascending(book.brackets.map((row) => row.size));
	const drives = ascending(book.drives.map((row) => row.torque));
	const noDrive = book.drives.findIndex((row) => row.key === none);
	const withoutDrive = noDrive === -1 ? book.drives.length : noDrive;

	const quantitiesOf = (criteria: readonly Criterion[]): string[] => [
		...new Set(criteria.flatMap(({ flag, have, need }) => [flag, have, need]))
	];
	const isRule = (id: string): boolean => rules.rule(id) !== undefined;
	const springs = rules.keysOf('springSet') ?? [];
	const fromSpring = new Set(['springSet']);
	const springTrial = rules.program({
		rules: ['springSetHolds'],
		given: [...before, ...rules.order.filter((id) => !rules.dependsOn(id, fromSpring)), 'springSet'],
		capacity: springs.length
	});
	const springColumns = springTrial.given.filter((id) => id !== 'springSet');
	springs.forEach((_, i) => (springTrial.column('springSet')[i] = i));
	const perBarrel = [
		...new Set([
			...quantitiesOf(barrelCriteria),
			'requiredTorque',
			'driveTurns',
			...springColumns.filter((id) => !before.has(id))
		])
	].filter(isRule);
	const barrelTrial = rules.program({
		rules: perBarrel,
		given: [...before, 'barrel', 'bracket'],
		capacity: brackets.length
	});
	const driveTrial = rules.program({
		rules: driveCriteria.map(({ flag }) => flag),
		given: [...before, 'requiredTorque', 'driveTurns', 'barrel', 'drive'],
		capacity: drives.length
	});
	const fromOpening = [
		...new Set([...barrelTrial.given, ...springColumns.filter((id) => before.has(id))])
	].filter((id) => id !== 'barrel' && id !== 'bracket');
	const openingColumns = fromOpening.flatMap((id) =>
		[barrelTrial, springTrial]
			.filter((program) => program.given.includes(id))
			.map((program) => ({ id, column: program.column(id) }))
	);
	const barrelColumn = barrelTrial.column('barrel');
	const bracketColumn = barrelTrial.column('bracket');
	const barrelFlags = barrelCriteria.map(({ flag }) => barrelTrial.column(flag));
	const driveFlags = driveCriteria.map(({ flag }) => driveTrial.column(flag));
	const torqueNeeded = barrelTrial.column('requiredTorque');
	const turnsNeeded = barrelTrial.column('driveTurns');
	brackets.forEach((bracket, i) => (bracketColumn[i] = bracket));

	const value = (program: Program, id: string, row: number): number => program.column(id)[row] ?? Number.NaN;

	return {
		given: fromOpening,
		run(read, motor, onFailure) {
			for (const { id, column } of openingColumns) column.fill(read(id));
			let withoutSprings: Choice | null = null;
			for (const barrel of barrels) {
				barrelColumn.fill(barrel);
				barrelTrial.run(brackets.length);
				for (const [row, bracket] of brackets.entries()) {
					const failed = barrelFlags.findIndex((flag) => flag[row] !== 1);
					if (failed >= 0) {
						const criterion = barrelCriteria[failed];
						if (onFailure && criterion)
							onFailure({
								barrel,
								bracket,
								drive: withoutDrive,
								criterion,
								have: value(barrelTrial, criterion.have, row),
								need: value(barrelTrial, criterion.need, row)
							});
						continue;
					}
					if (!motor) {
						const choice = { barrel, bracket, drive: withoutDrive };
						if (springsFit(barrel, row)) return choice;
						withoutSprings ??= choice;
						continue;
					}
					const drive = tryDrives(barrel, bracket, row, onFailure);
					if (drive !== null) return { barrel, bracket, drive };
				}
			}
			return withoutSprings;
		}
	};

	/** Whether springs of the shop book hold in this pipe, with the bracket in `row` of the trial. */
	function springsFit(barrel: number, row: number): boolean {
		for (const id of springColumns) {
			if (id === 'barrel') springTrial.column(id).fill(barrel);
			else if (!before.has(id)) springTrial.column(id).fill(value(barrelTrial, id, row));
		}
		springTrial.run(springs.length);
		return springTrial.column('springSetHolds').includes(1);
	}

	function tryDrives(
		barrel: number,
		bracket: number,
		row: number,
		onFailure: ((failure: Failure) => void) | undefined
	): number | null {
		driveTrial.column('barrel').fill(barrel);
		driveTrial.column('requiredTorque').fill(torqueNeeded[row] ?? Number.NaN);
		driveTrial.column('driveTurns').fill(turnsNeeded[row] ?? Number.NaN);
		drives.forEach((drive, i) => (driveTrial.column('drive')[i] = drive));
		driveTrial.run(drives.length);
		for (const [i, drive] of drives.entries()) {
			const failed = driveFlags.findIndex((flag) => flag[i] !== 1);
			if (failed < 0) return drive;
			const criterion = driveCriteria[failed];
			if (onFailure && criterion)
				onFailure({
					barrel,
					bracket,
					drive,
					criterion,
					have: value(driveTrial, criterion.have, i),
					need: value(driveTrial, criterion.need, i)
				});
		}
		return null;
	}
}
