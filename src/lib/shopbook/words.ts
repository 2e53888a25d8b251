/** The fixed words of the trade that rows of the shop book and of a job are keyed by. */

export const substrates = [
	'concrete',
	'groutedBlock',
	'hollowBlock',
	'brick',
	'structuralSteel',
	'studWithBacking',
	'wood'
] as const;
export const mountings = ['faceOfWall', 'betweenJambs'] as const;
export const operations = ['tubeMotor', 'chain', 'crank', 'pushUp'] as const;
export const trades = ['installer', 'electrician'] as const;
