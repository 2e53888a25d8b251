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

/** How a fastener holds, which says whose rules it is checked by. `reported`: only by the allowable loads of a tested report. */
export const fastenerKinds = [
	'lagScrew',
	'selfDrillingScrew',
	'throughBolt',
	'castIn',
	'postInstalled',
	'reported'
] as const;
/** Which side of the coil the curtain leaves it on. */
export const windings = ['wall', 'front'] as const;
/** What a fastener gives way by, by the standard that reckons it, as a person reads it. */
export const failureModeWords = {
	lagWithdrawal: 'lag screw pulled out of the wood',
	lagLateralIm: 'lag screw sideways, mode Im: wood crushed',
	lagLateralIs: 'lag screw sideways, mode Is: steel crushed',
	lagLateralII: 'lag screw sideways, mode II: it tilts',
	lagLateralIIIm: 'lag screw sideways, mode IIIm: it bends in the wood',
	lagLateralIIIs: 'lag screw sideways, mode IIIs: it bends at the steel',
	lagLateralIV: 'lag screw sideways, mode IV: it bends twice',
	lagCombined: 'lag screw, pull and shear together',
	screwTension: 'screw breaks in tension',
	screwPullOut: 'screw pulled out of the sheet',
	screwPullOver: 'leg pulled over the head',
	screwShear: 'screw breaks in shear',
	screwTilting: 'screw tilts',
	screwBearing: 'sheet crushed at the screw',
	screwCombined: 'screw, pull and shear together',
	boltTension: 'bolt breaks in tension',
	boltShear: 'bolt breaks in shear',
	boltBearing: 'steel crushed or torn at the bolt',
	boltCombined: 'bolt, pull and shear together',
	concreteSteelTension: 'anchor steel breaks in tension',
	concretePullOut: 'anchor pulled out of the concrete',
	concreteBreakout: 'concrete breaks out in tension',
	concreteSteelShear: 'anchor steel breaks in shear',
	concreteShearBreakout: 'concrete breaks out at the edge',
	concretePryOut: 'concrete pried out',
	concreteCombined: 'anchor in concrete, pull and shear together',
	masonrySteelTension: 'anchor steel breaks in tension',
	masonryPullOut: 'anchor pulled out of the masonry',
	masonryBreakout: 'masonry breaks out in tension',
	masonrySteelShear: 'anchor steel breaks in shear',
	masonryCrushing: 'masonry crushed',
	masonryShearBreakout: 'masonry breaks out at the edge',
	masonryPryOut: 'masonry pried out',
	masonryCombined: 'anchor in masonry, pull and shear together',
	reportTension: 'pull, by the report',
	reportShear: 'shear, by the report',
	reportCombined: 'pull and shear together, by the report'
} as const;
export const failureModes = Object.keys(failureModeWords);
