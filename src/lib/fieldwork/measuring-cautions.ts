/** The usual cautions to whoever measures, on the page and on paper. *Common practice, no source.* */
export const measuringCautions: readonly string[] = [
	'Heights and the head are measured from a sound ladder or platform on firm, level ground, with three points of contact; not from the sill or a counter.',
	'Near wires or bare conductors no metal tape or rod: have them made dead first, or leave the reading out.',
	'An edge without a guard below it is measured tied off, or not at all.',
	'What is worked out is a comparison with the drawing. It says what was checked; nobody has approved the wall, the fixing or the start of work.'
];
