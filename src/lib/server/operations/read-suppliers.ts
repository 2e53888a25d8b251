import type { SuppliersAnswer } from '../../changes/buying.ts';
import type { Actor } from '../identity/actor.ts';
import { done, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';

/** Those that the company buys of, and what each of them calls things. */
export async function readSuppliers(actor: Actor, services: Services): Promise<Outcome<SuppliersAnswer>> {
	const { suppliers } = services.storage;
	const aliases = await suppliers.aliases(actor.companyId);
	return done({
		suppliers: (await suppliers.list(actor.companyId)).map((supplier) => ({
			...supplier,
			words: aliases
				.filter(({ supplierId }) => supplierId === supplier.id)
				.map(({ aliasId, phrase, kind, item, hand, by, madeAt, withdrawn }) => ({
					aliasId,
					phrase: phrase.trim(),
					kind,
					item,
					hand,
					by,
					madeAt,
					withdrawn
				}))
		}))
	});
}
