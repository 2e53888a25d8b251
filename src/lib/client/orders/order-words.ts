/** Orders in words. */
import type { OpenKind, OrderLineView, OrderState } from '../../changes/orders.ts';
import type { AcknowledgedAttribute } from '../../delivery/ordering/acknowledgement.ts';
import type { Day } from '../../delivery/ordering/purchase-order.ts';
import { formatLength } from '../../quantity/length.ts';
import { formatMoney, Money } from '../../quantity/money.ts';
import { lengthStyleOf, type Measures } from '../../takeoff/inputs.ts';
import type { MarkName } from '../parts/marks.ts';

export const stateWords: Readonly<Record<OrderState, { readonly text: string; readonly mark: MarkName }>> = {
	withdrawn: { text: 'withdrawn', mark: 'wrong' },
	written: { text: 'written, not sent', mark: 'note' },
	revised: { text: 'new revision written, not sent', mark: 'note' },
	released: { text: 'sent, not answered', mark: 'later' },
	answered: { text: 'answered', mark: 'right' }
};

export const openWords: Readonly<Record<OpenKind, { readonly text: string; readonly mark: MarkName }>> = {
	toWrite: { text: 'To write', mark: 'absent' },
	toRelease: { text: 'To send', mark: 'held' },
	answer: { text: 'No answer', mark: 'later' },
	difference: { text: 'To decide', mark: 'caution' },
	sentBack: { text: 'Sent back', mark: 'later' },
	outOfStep: { text: 'Out of step', mark: 'wrong' }
};

export const attributeWords: Readonly<Record<AcknowledgedAttribute, string>> = {
	revision: 'which order',
	line: 'the line itself',
	quantity: 'quantity',
	price: 'price',
	size: 'size',
	length: 'length',
	width: 'width',
	hand: 'hand',
	finish: 'finish',
	promised: 'promised day',
	unit: 'unit',
	refused: 'refused'
};

const msPerDay = 86_400_000;

/** Whole days from one day to another; below 0 where it is before. */
const daysBetween = (from: Day, to: Day): number =>
	Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / msPerDay);

const days = (count: number): string => (count === 1 ? '1 day' : `${count} days`);

/** `in 12 days`, `today`, `3 days ago` */
export function awayWords(today: Day, day: Day): string {
	const away = daysBetween(today, day);
	if (away === 0) return 'today';
	return away > 0 ? `in ${days(away)}` : `${days(-away)} ago`;
}

/** The same, overdue said first where it is. */
export const dueWords = (today: Day, day: Day, overdue: boolean): string =>
	`${overdue ? 'overdue, ' : ''}${awayWords(today, day)}`;

export const lotWords = ({ phase, release }: { readonly phase: string; readonly release: number }): string =>
	`${phase === '' ? 'no phase' : `phase ${phase}`}, release ${release}`;

/** A size is not broken between its inches and their fraction. */
const unbroken = (length: string): string => length.replaceAll(' ', '\u00a0');

/** Nominal size, then width × length. A complete unit says its size already. */
export function sizeWords({ scope, size, width, length }: OrderLineView, measures: Measures): string {
	const text = (nm: number | null): string =>
		nm === null ? '' : unbroken(formatLength(nm, lengthStyleOf(measures)));
	const sides = scope === 'unit' ? '' : [text(width), text(length)].filter((one) => one !== '').join(' × ');
	return [size, sides].filter((one) => one !== '').join(', ');
}

export const moneyWords = (amount: string, currency: string): string =>
	formatMoney(new Money(amount), currency);

/** `2 each`; without zeros at its end. */
export const quantityWords = ({ quantity, unit }: Pick<OrderLineView, 'quantity' | 'unit'>): string =>
	`${new Money(quantity).toFixed()} ${unit}`;

/** The first few marks, and how many more. */
export const marksWords = ({ marks }: Pick<OrderLineView, 'marks'>, most = 6): string[] =>
	marks.length > most ? [...marks.slice(0, most), `and ${marks.length - most} more`] : [...marks];
