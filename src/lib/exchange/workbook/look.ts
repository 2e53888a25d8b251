/**
 * How the workbook looks: warm white, graphite, thin rules, one chalk-line blue. What a person types stands on white,
 * what a formula works out on a faint tint, what only the app can choose on blue. Every style is one shared object, so
 * that a cell costs no style of its own.
 */
import type { Borders, Fill, Font, Style } from 'exceljs';
import { decimalsOf } from '../../quantity/format.ts';
import type { QuantityDefinition } from '../../rulebook/definition.ts';

export type Kind =
	/** Typed by a person. */
	| 'typed'
	/** Taken from the row's mark; may be typed over. */
	| 'taken'
	/** A live formula. */
	| 'worked'
	/** Chosen or computed by the app; not live. */
	| 'value'
	/** Text that says something and is not worked with. */
	| 'text'
	| 'total'
	| 'title'
	| 'lead'
	| 'band'
	| 'heading'
	| 'id'
	| 'warning';

const ink = 'FF25292E';
const quiet = 'FF5A5F66';
const chalk = 'FF1B5A9E';
const white = 'FFFFFFFF';
const tint = 'FFF2EFE6';
const chalkFaint = 'FFE4EDF6';
const rule = 'FFDCD7CA';
const ruleFirm = 'FF8D8A82';
export const stopInk = 'FF9C2118';
export const stopFaint = 'FFF8E9E6';

/** A condensed face that office programs have; figures in it are equally wide. */
export const face = 'Arial Narrow';

const solid = (argb: string): Fill => ({ type: 'pattern', pattern: 'solid', fgColor: { argb } });
const line = (argb: string) => ({ style: 'thin' as const, color: { argb } });
const below = (argb: string): Partial<Borders> => ({ bottom: line(argb) });

const fonts: Readonly<Record<Kind, Partial<Font>>> = {
	typed: { color: { argb: ink } },
	taken: { color: { argb: quiet }, italic: true },
	worked: { color: { argb: ink } },
	value: { color: { argb: chalk } },
	text: { color: { argb: ink } },
	total: { color: { argb: ink }, bold: true },
	title: { color: { argb: ink }, bold: true, size: 16 },
	lead: { color: { argb: quiet } },
	band: { color: { argb: chalk }, bold: true },
	heading: { color: { argb: ink }, bold: true },
	id: { color: { argb: quiet }, size: 7 },
	warning: { color: { argb: stopInk }, bold: true }
};

const fills: Readonly<Partial<Record<Kind, Fill>>> = {
	typed: solid(white),
	taken: solid(white),
	worked: solid(tint),
	value: solid(chalkFaint),
	total: solid(tint)
};

const borders: Readonly<Partial<Record<Kind, Partial<Borders>>>> = {
	typed: below(rule),
	taken: below(rule),
	worked: below(rule),
	value: below(rule),
	text: below(rule),
	total: { top: line(ruleFirm), bottom: line(ruleFirm) },
	band: below(chalk),
	id: below(ruleFirm)
};

const made = new Map<string, Partial<Style>>();

export interface LookOptions {
	/** Number format; `General` without it. */
	readonly format?: string;
	readonly align?: 'left' | 'center' | 'right';
	readonly wrap?: boolean;
}

/** The shared style for a kind of cell. */
export function look(kind: Kind, { format, align, wrap = false }: LookOptions = {}): Partial<Style> {
	const key = `${kind}|${format ?? ''}|${align ?? ''}|${String(wrap)}`;
	const known = made.get(key);
	if (known) return known;
	const fill = fills[kind];
	const border = borders[kind];
	// What stands at the right keeps off the text in the next column by the width of a bracket.
	const numFmt = align === 'right' ? `${format ?? 'General'}_)` : format;
	const style: Partial<Style> = {
		font: { name: face, size: 10, ...fonts[kind] },
		alignment: {
			vertical: kind === 'heading' || kind === 'band' ? 'bottom' : 'top',
			wrapText: wrap,
			...(align === undefined ? {} : { horizontal: align }),
			// Words keep off the figures before them.
			...(align === 'left' ? { indent: 1 } : {})
		},
		...(numFmt === undefined ? {} : { numFmt }),
		...(fill === undefined ? {} : { fill }),
		...(border === undefined ? {} : { border })
	};
	made.set(key, style);
	return style;
}

/** Text that a person typed keeps being text when it is edited. */
export const textFormat = '@';

/** For a live text that is set at the right, as figures are. */
export const rightText: LookOptions = { format: 'General_);General_);General_);@', align: 'right' };

/** Number format of a quantity in a unit: stated decimals, thousands set apart; a plain ratio up to four decimals. */
export function formatOf({ kind }: Pick<QuantityDefinition, 'kind'>, unit: string): LookOptions {
	if (kind === 'key') return { align: 'left' };
	if (kind === 'flag') return { align: 'center' };
	if (kind === 'count') return { format: '#,##0', align: 'right' };
	if (unit === '1') return { format: '#,##0.00##', align: 'right' };
	const decimals = decimalsOf(unit);
	return { format: decimals === 0 ? '#,##0' : `#,##0.${'0'.repeat(decimals)}`, align: 'right' };
}

export const moneyFormat: LookOptions = { format: '#,##0.00', align: 'right' };
export const countFormat: LookOptions = { format: '#,##0', align: 'right' };

/** `ft²`, `N·m`, `USD/ft²`; empty for plain numbers. */
export function unitSign(unit: string, currency = ''): string {
	if (unit === '1') return '';
	return unit
		.replace(/^money/u, currency)
		.replace('N-m', 'N·m')
		.replace('ohm', 'Ω')
		.replace(/(?<=[a-z])[2-4]/gu, (digit) => '²³⁴'.charAt(Number(digit) - 2));
}

/** A heading with its unit: `Guide distance (in)`. */
export function headingOf(title: string, unit: string, currency = ''): string {
	const sign = unitSign(unit, currency);
	return sign === '' ? title : `${title} (${sign})`;
}
