/** Why a backup can't be written, read or restored: a sentence for a person. */
export class BackupProblem extends Error {
	override readonly name = 'BackupProblem';
}
