/** What the board and the list for a day say in words, on the page and on paper. */
import type { TaskGroup } from '../../takeoff/result.ts';
import type { ClearToStart, NotChecked } from './clear-to-start.ts';
import type { Holder } from './inputs.ts';

export const taskTitles: Readonly<Record<TaskGroup, string>> = {
	guides: 'Guides',
	brackets: 'Brackets',
	coil: 'Coil',
	hood: 'Hood',
	power: 'Power'
};

/** Who can do something about it: `estimator`, `purchasing`, `installer`, or the supplier by name. */
export const holderText = (who: Holder): string => (typeof who === 'string' ? who : who.supplier);

const unchecked: Readonly<Record<NotChecked, string>> = {
	stops: 'The stops of the takeoff were not looked at.',
	fieldMeasure: 'The field measure was not looked at.',
	orders: 'Orders were not looked at.',
	counts: 'Some deliveries were not counted to the end and go by their packing list.',
	decisions: 'Open questions about packing lists and orders were not looked at.',
	stock: 'Parts from the shop’s own stock that no list names are taken to be there.'
};

/** What was not checked, a sentence each; deliveries that go by their list are named. */
export const notCheckedTexts = ({
	notChecked,
	byList
}: Pick<ClearToStart, 'notChecked' | 'byList'>): string[] =>
	notChecked.map((what) =>
		what === 'counts'
			? `Not counted to the end, so taken as listed: ${byList.map(({ name }) => `“${name}”`).join(', ')}.`
			: unchecked[what]
	);

/** How parts that came short and may stand in for one another are dealt out. */
export const dealtText: Readonly<Record<'order' | 'most', string>> = {
	order:
		'Short parts that may stand in for one another are dealt out in the wanted order: the first wanted has them.',
	most: 'Short parts that may stand in for one another are dealt out so that the most openings can start.'
};

/** What *clear* means: said wherever it stands. */
export const whatClearMeans =
	'Clear says that the parts are here, whole and right, that the takeoff has no stop and that the field measure agrees. It approves nothing: whoever starts looks at the opening first.';

/** The usual cautions of hanging a coiling closure. Common practice, no source; codes and makers’ instructions go before them. */
export const startingCautions: readonly string[] = [
	'Lifting: know the weight of barrel and curtain before they are lifted, use a lift rated for it, keep clear of what hangs, and do not work alone.',
	'Springs hold energy: wind, adjust and open them only with the maker’s tools and instructions; block the curtain before anything is loosened.',
	'Dust: drilling masonry and concrete sets silica free. Wet drilling or extraction, and a mask that fits.',
	'Power: isolate, lock and test dead before anything of the operator is touched; wiring is for who may do it.',
	'Wall and anchors as drawn: where the wall is another one, stop and ask. Local codes and the maker’s instructions go before this list.'
];
