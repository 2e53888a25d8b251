/** `"`, `〃`, `do.`, `-do-`, `↓`, `ditto`, `same`, `same as above` … Common practice, no source. */
const ditto =
	/^(?:[-–—\s]*(?:["”“″〃]|''|’’)(?:[\s–—-]*(?:["”“″〃]|''|’’))*[-–—\s]*|[-–—]?(?:do|dto)\.?[-–—]?|[↓⇓]|ditto\.?|same(?: as)?(?: above)?\.?|as above\.?|(?:as )?prev(?:ious|\.)?)$/iu;

/** Whether a cell says only that the one above it holds here too. */
export const isDitto = (text: string): boolean => text.length <= 20 && ditto.test(text);
