import type { RememberedWord } from '../../changes/deliveries.ts';
import { wordToRemember } from '../../delivery/remembered-word.ts';
import type { Part } from '../../takeoff/result.ts';
import type { Actor } from '../identity/actor.ts';
import type { Repositories } from '../storage/storage.ts';
import { writeCompanyHistory } from './company-people.ts';
import type { Services } from './services.ts';

/**
 * Keeps in mind what a supplier calls these parts, inside the transaction of the decision. Null where there is nothing to
 * learn, or where the same words are known already: a word means one kind, and what it meant before is not written over.
 */
export async function rememberWord(
	inside: Repositories,
	actor: Actor,
	services: Services,
	{
		supplierId,
		description,
		parts
	}: { readonly supplierId: string; readonly description: string; readonly parts: readonly Part[] },
	at: Date
): Promise<RememberedWord | null> {
	const word = wordToRemember(description, parts);
	const supplier = await inside.suppliers.find(actor.companyId, supplierId);
	if (!word || !supplier) return null;
	const known = (await inside.suppliers.aliases(actor.companyId, supplierId)).filter(
		({ phrase }) => phrase.trim() === word.phrase
	);
	if (known.some(({ withdrawn }) => !withdrawn)) return null;
	const forgotten = known.find(({ kind, item }) => kind === word.kind && item === word.item);
	const aliasId = forgotten?.aliasId ?? services.newId();
	if (forgotten)
		await inside.suppliers.setAliasWithdrawn(actor.companyId, { supplierId, aliasId }, false, at);
	else await inside.suppliers.addAlias(actor.companyId, { aliasId, supplierId, ...word }, actor, at);
	await writeCompanyHistory(
		inside,
		services,
		actor,
		{
			title: `Remember what ${supplier.name} calls “${word.phrase}”`,
			records: [
				{
					record: 'Supplier',
					name: supplier.name,
					field: `Their word “${word.phrase}”`,
					before: forgotten ? 'forgotten' : null,
					after: 'remembered'
				}
			]
		},
		at
	);
	return { supplierId, aliasId, phrase: word.phrase };
}
