import { describe, expect, it } from 'vitest';
import {
	engineOf,
	openingA,
	openingB,
	openingC,
	typedRow,
	type Typed
} from '../../../../tests/opening-rows.ts';
import { checkRules } from '../../takeoff/rules/checks.ts';
import type { Check, OpeningTakeoff } from '../../takeoff/result.ts';
import { checksAbout, type Section } from './sections.ts';
import { holdingRows, rowsOf } from './tables.ts';

const engine = engineOf();
const openingsOf = (rows: readonly Typed[]): readonly OpeningTakeoff[] =>
	engine.takeoff(
		rows.map((typed) => typedRow(typed)),
		'imperial'
	).openings;

/** Hollow block has no report in the demo book. */
const hollow: Typed = { ...openingA, mark: 'H', rightSubstrate: 'hollowBlock' };
const pushed: Typed = { ...openingA, mark: 'P', operation: 'pushUp' };

describe('holding', () => {
	const rows = holdingRows(openingsOf([openingA, openingB, openingC, hollow, { mark: 'D' }]));

	it('has stops first, then what is used most; what is not worked out is left out', () => {
		expect(rows[0]?.opening.mark).toBe('H');
		expect(rows[0]?.stops.map(({ code }) => code)).toContain('anchorNeedsReportRight');
		expect(rows[0]?.right.value).toBeNull();
		expect(rows.map(({ opening }) => opening.mark)).not.toContain('D');
		const uses = rows.slice(1).map(({ left, right }) => Math.max(left.value ?? NaN, right.value ?? NaN));
		expect(uses).toEqual([...uses].sort((a, b) => b - a));
	});

	it('names the guide or the bracket, whichever is used more', () => {
		for (const { opening, left, right } of rows)
			for (const [side, worst] of [
				['Left', left],
				['Right', right]
			] as const) {
				const uses = [opening.get(`useGuide${side}`), opening.get(`useBracket${side}`)];
				if (uses.some((use) => typeof use !== 'number')) continue;
				expect(worst.value).toBe(Math.max(...uses.map(Number)));
				expect(opening.get(worst.use)).toBe(worst.value);
				expect(worst.mode).toBe(`mode${worst.place}${side}`);
			}
	});
});

it('lists motors under drives, hand operation under springs, and both under lifting', () => {
	const openings = openingsOf([openingA, pushed, openingB]);
	const marks = (section: 'drive' | 'springs' | 'lifting'): string[] =>
		rowsOf(section, openings).map(({ mark }) => mark);
	expect(marks('drive')).toEqual(['A', 'B']);
	expect(marks('springs')).toEqual(['P']);
	expect(marks('lifting')).toEqual(['A', 'P', 'B']);
});

describe('checks stand with what they are about', () => {
	const asCheck = (code: string): Check => {
		const rule = checkRules.find((one) => one.code === code);
		if (!rule) throw new Error(`no check ${code}`);
		const { severity, about, source, clears, text } = rule;
		return { code, severity, rule: about, source, clears, text };
	};
	it.each([
		['guideDoesNotHoldLeft', 'holding'],
		['bracketDoesNotHoldLeft', 'holding'],
		['capacityUnknownRight', 'holding'],
		['anchorNeedsReportLeft', 'holding'],
		['noAnchorForWallLeft', 'holding'],
		['edgeTooCloseRight', 'holding'],
		['wallTooThinLeft', 'holding'],
		['noAnchorLengthRight', 'holding'],
		['pressureMissing', 'holding'],
		['windlockPullUnknown', 'holding'],
		['supplyUnknown', 'drive'],
		['closesNotByWeight', 'drive'],
		['springsCannotBalance', 'springs'],
		['springFitsNowhere', 'springs'],
		['handForceTooMuch', 'springs'],
		['storedEnergy', 'springs'],
		['heavyCoil', 'lifting'],
		['workAtHeight', 'lifting']
	] as const)('%s: %s', (code, section) => {
		const sections: readonly Section[] = ['holding', 'drive', 'springs', 'lifting'];
		expect(sections.filter((one) => checksAbout(one, [asCheck(code)]).length > 0)).toEqual([section]);
	});
});
