/** Views to begin with. They are made when they are looked at and belong to nobody. */
import { everyRow, usualView, type SheetView } from '../../changes/sheet-view.ts';
import { inputIds } from '../../takeoff/inputs.ts';
import { usualResults } from '../grid/result-columns.ts';

interface FirstView {
	readonly name: string;
	/** What it shows, in words. */
	readonly sentence: string;
	readonly view: SheetView;
}

/** The usual view with these columns and no others beside the mark. */
const only = (columns: readonly string[]): SheetView => ({
	...usualView,
	choice: {
		...Object.fromEntries(
			[...inputIds, ...usualResults].filter((id) => id !== 'mark').map((id) => [id, false])
		),
		...Object.fromEntries(columns.map((id) => [id, true]))
	}
});

export const firstViews: readonly FirstView[] = [
	{
		name: 'Usual',
		sentence: 'The columns most jobs need, every row, in the stored order.',
		view: usualView
	},
	{
		name: 'Sizes and walls',
		sentence: 'What is measured on site, what is fixed to what, and the distances that follow.',
		view: only([
			'quantity',
			'location',
			'openingWidth',
			'openingHeight',
			'hold',
			'sill',
			'sillHeight',
			'mounting',
			'guide',
			'leftSubstrate',
			'rightSubstrate',
			'headSubstrate',
			'finishBuildUp',
			'guideDistance',
			'curtainWidth',
			'bracketDistance',
			'guideLength'
		])
	},
	{
		name: 'Weights',
		sentence: 'What the curtain, the coil and the other parts weigh, and how the coil gets up.',
		view: only([
			'quantity',
			'openingWidth',
			'openingHeight',
			'curtain',
			'curtainArea',
			'curtainWeight',
			'coilWeight',
			'guideWeight',
			'bracketWeight',
			'driveWeight',
			'hoodWeight',
			'shippingWeight',
			'lift',
			'liftTo',
			'handLiftLimit'
		])
	},
	{
		name: 'Anchors',
		sentence: 'What holds guides and brackets, how many of them, and how much of their capacity is used.',
		view: only([
			'quantity',
			'leftSubstrate',
			'rightSubstrate',
			'headSubstrate',
			'fixing',
			'anchorStockLeft',
			'anchorStockRight',
			'anchorsPerGuideLeft',
			'anchorsPerGuideRight',
			'anchorsPerBracket',
			'anchorTotal',
			'useGuideLeft',
			'useGuideRight',
			'useBracketLeft',
			'useBracketRight'
		])
	},
	{
		name: 'Stops only',
		sentence: 'The usual columns, and only the openings that have a stop.',
		view: { ...usualView, filter: { ...everyRow, checks: 'stop' } }
	}
];
