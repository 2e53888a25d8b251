/**
 * How sure a match or a proposal is. Few levels, each with its meaning; common practice, no source. They order what is
 * proposed and tell a person how well a match is founded. What is below `differs` is asked about, never counted.
 */
export const confidences = {
	/** A person said so. */
	decided: 1,
	/** Our own line or part id, and something else on the line agrees with it. */
	namedAndAgreed: 0.99,
	/** Our own line or part id alone. */
	named: 0.95,
	/** Mark and kind, and a length, width or size that agrees. */
	measured: 0.9,
	/** Mark and kind, and nothing else that it could be. */
	only: 0.8,
	/** The same by a word of the supplier that a person explained. */
	alias: 0.75,
	/** Misread, and one part only agrees in kind and in a measure or the count. */
	misread: 0.7,
	/** One part, and the line disagrees with it in something. */
	differs: 0.6,
	/** Not counted: one thing fits, but something had to be assumed. */
	likely: 0.5,
	/** Not counted: one of several that fit. */
	oneOfSeveral: 0.3,
	/** Not counted: only looks like it. */
	alike: 0.2
} as const;
