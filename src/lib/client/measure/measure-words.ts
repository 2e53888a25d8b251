/** What a measure came to, in words and marks. */
import type { MeasureVerdict } from '../../fieldwork/read-measure.ts';
import type { Finding } from '../../fieldwork/finding.ts';
import type { SayLength } from '../../fieldwork/sentence.ts';
import type { PartChange, PartDifference } from '../../fieldwork/part-changes.ts';
import { spaced } from '../../takeoff/show.ts';
import type { MarkName } from '../parts/marks.ts';

interface Said {
	readonly mark: MarkName;
	readonly word: string;
}

type OutcomeOrNone = MeasureVerdict['outcome'] | 'notMeasured';

export const outcomes: Readonly<Record<OutcomeOrNone, Said>> = {
	agrees: { mark: 'right', word: 'Agrees' },
	stop: { mark: 'stop', word: 'Stop' },
	incomplete: { mark: 'short', word: 'Incomplete' },
	notMeasured: { mark: 'absent', word: 'Not measured' }
};

export const states: Readonly<Record<Finding['state'], Said>> = {
	within: { mark: 'right', word: 'Within' },
	stop: { mark: 'stop', word: 'Stop' },
	notMeasured: { mark: 'absent', word: 'To measure' }
};

const plain = (value: number | string | null, say: SayLength): string =>
	value === null ? 'not known' : typeof value === 'number' ? say(value) : spaced(value);

/** What stands beside a finding, as name and figure. */
export function figuresOf({ thing, measured, drawn, difference, tolerance }: Finding, say: SayLength) {
	if (measured === null) return [];
	const isRoom = thing === 'headroom' || thing === 'sideRoomLeft' || thing === 'sideRoomRight';
	const isAnchor = thing === 'anchorLeft' || thing === 'anchorRight';
	return [
		{ name: isAnchor ? 'Shims' : 'Measured', figure: plain(measured, say) },
		{ name: isRoom ? 'Needed' : isAnchor ? 'Passes' : 'Drawn', figure: plain(drawn, say) },
		...(difference === null
			? []
			: [{ name: 'Difference', figure: `${difference > 0 ? '+' : ''}${say(difference)}` }]),
		...(tolerance === null || isRoom || isAnchor ? [] : [{ name: 'Allowed', figure: `± ${say(tolerance)}` }])
	];
}

function differenceText({ attribute, before, after, difference }: PartDifference, say: SayLength): string {
	if (difference === null) return `${attribute} ${after} instead of ${before}`;
	const [more, less] = attribute === 'width' ? ['wider', 'narrower'] : ['longer', 'shorter'];
	return `${say(Math.abs(difference))} ${difference > 0 ? more : less}: ${after} instead of ${before}`;
}

/** `3/8" longer: 4'-2 3/8" instead of 4'-2"`. */
export function changeText({ state, differences }: PartChange, say: SayLength): string {
	switch (state) {
		case 'added':
			return 'added';
		case 'dropped':
			return 'no longer needed';
		case 'unchanged':
			return 'unchanged';
		case 'changed':
			return differences.map((one) => differenceText(one, say)).join('; ');
	}
}

/** What has to be done about the order lines of a part. */
export const lineTexts = ({ orderLines }: PartChange): string[] =>
	orderLines.map(
		({ orderNumber, line, ordered }) =>
			`order ${orderNumber}, line ${line} ${ordered ? 'must change' : 'to be put right before it goes out'}`
	);
