import { z } from 'zod';
import { lineScopes, type Supplier } from '../../delivery/ordering/purchase-order.ts';
import type { Actor } from '../identity/actor.ts';
import { writeCompanyHistory } from './company-people.ts';
import { bodyProblem } from './job-bodies.ts';
import { done, refuse, type Outcome } from './outcome.ts';
import type { Services } from './services.ts';
import { fieldChange } from './write-history.ts';

const days = (what: string) =>
	z
		.number(`${what} are a whole number of days.`)
		.int(`${what} are a whole number of days.`)
		.min(0, `${what} are 0 days or more.`)
		.max(730, `${what} are at most 730 days.`);

const body = z.strictObject({
	name: z
		.string()
		.transform((text) => text.replace(/[\p{Cc}\s]+/gu, ' ').trim())
		.pipe(
			z
				.string()
				.min(1, 'The supplier needs a name.')
				.max(120, 'The name of a supplier has at most 120 characters.')
		),
	scopes: z
		.array(z.enum(lineScopes))
		.transform((scopes) => lineScopes.filter((scope) => scopes.includes(scope))),
	leadDays: days('The days from the order to the truck'),
	daysBefore: days('The days before the work starts'),
	handsFrom: z.enum(['coilSide', 'farSide']),
	sizes: z.enum(['part', 'opening', 'overall']),
	concealedDamageDays: days('The days for concealed damage').nullable()
});

const scopeWords = { unit: 'complete units', part: 'parts', stock: 'shop items' } as const;
const sizeWords = {
	part: 'the parts',
	opening: 'the openings',
	overall: 'the openings with their guides'
} as const;

const noSuchSupplier = refuse(404, {
	message: 'There is no such supplier. Somebody may have taken it out; the list shows who is there.'
});

/** A supplier as the history tells it, field by field. */
const told = (supplier: Supplier | null): readonly (readonly [string, string | null])[] => [
	['Name', supplier?.name ?? null],
	['Bought there', supplier ? supplier.scopes.map((scope) => scopeWords[scope]).join(', ') : null],
	['Days from order to truck', supplier ? String(supplier.leadDays) : null],
	['Days on site before the work', supplier ? String(supplier.daysBefore) : null],
	[
		'Left and right seen from',
		supplier ? (supplier.handsFrom === 'coilSide' ? 'coil side' : 'far side') : null
	],
	['Sizes measure', supplier ? sizeWords[supplier.sizes] : null],
	['Days to tell concealed damage', supplier?.concealedDamageDays?.toString() ?? null]
];

/**
 * Writes a supplier down, new (`id` null) or over what was there. What is bought of them (units, parts, shop items) is
 * bought of nobody else from then on.
 */
export async function saveSupplier(
	actor: Actor,
	services: Services,
	id: string | null,
	request: unknown
): Promise<Outcome<{ id: string }>> {
	const parsed = body.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { companyId } = actor;
	const at = services.now();
	return services.storage.transaction(async (inside): Promise<Outcome<{ id: string }>> => {
		const all = await inside.suppliers.list(companyId);
		const before = id === null ? null : (all.find((one) => one.id === id) ?? null);
		if (id !== null && !before) return noSuchSupplier;
		const supplier: Supplier = { id: id ?? services.newId(), ...parsed.data };
		const named = all.find(
			(one) => one.id !== supplier.id && one.name.toLowerCase() === supplier.name.toLowerCase()
		);
		if (named)
			return refuse(409, { message: `${named.name} is there already. Change that one.`, field: 'name' });
		const taken = all.find(
			(one) => one.id !== supplier.id && one.scopes.some((scope) => supplier.scopes.includes(scope))
		);
		if (taken) {
			const shared = taken.scopes.filter((scope) => supplier.scopes.includes(scope));
			return refuse(409, {
				message: `${shared.map((scope) => scopeWords[scope]).join(' and ')} are bought of ${taken.name}. Take that away there first: nothing is ordered twice.`,
				field: 'scopes'
			});
		}
		await inside.suppliers.put(companyId, supplier, at);
		const old = new Map(told(before));
		const record = { record: 'Supplier', name: supplier.name };
		const records = told(supplier).flatMap(([field, after]) =>
			fieldChange(record, field, old.get(field) ?? null, after)
		);
		const title = before ? `Change supplier ${supplier.name}` : `Write down supplier ${supplier.name}`;
		if (records.length > 0) await writeCompanyHistory(inside, services, actor, { title, records }, at);
		return done({ id: supplier.id });
	});
}

/** Takes a supplier out of the list. Orders that name them stay as they are. */
export async function removeSupplier(
	actor: Actor,
	services: Services,
	id: string
): Promise<Outcome<{ id: string }>> {
	const { companyId } = actor;
	const at = services.now();
	return services.storage.transaction(async (inside): Promise<Outcome<{ id: string }>> => {
		const supplier = await inside.suppliers.find(companyId, id);
		if (!supplier || !(await inside.suppliers.remove(companyId, id, at))) return noSuchSupplier;
		const records = [
			{ record: 'Supplier', name: supplier.name, field: 'State', before: 'there', after: 'taken out' }
		];
		const title = `Take supplier ${supplier.name} out`;
		await writeCompanyHistory(inside, services, actor, { title, records }, at);
		return done({ id });
	});
}

const aliasBody = z.strictObject({ withdrawn: z.boolean() });

/** Forgets what a supplier calls something, or takes it up again: from then on their words are asked about. */
export async function changeAlias(
	actor: Actor,
	services: Services,
	{ supplierId, aliasId }: { readonly supplierId: string; readonly aliasId: string },
	request: unknown
): Promise<Outcome<{ id: string }>> {
	const parsed = aliasBody.safeParse(request);
	if (!parsed.success) return bodyProblem(parsed.error);
	const { withdrawn } = parsed.data;
	const { companyId } = actor;
	const at = services.now();
	return services.storage.transaction(async (inside): Promise<Outcome<{ id: string }>> => {
		const supplier = await inside.suppliers.find(companyId, supplierId);
		const alias = (await inside.suppliers.aliases(companyId, supplierId)).find(
			(one) => one.aliasId === aliasId
		);
		if (!supplier || !alias)
			return refuse(404, { message: 'This supplier is not known to call anything so.' });
		if (alias.withdrawn === withdrawn) return done({ id: aliasId });
		await inside.suppliers.setAliasWithdrawn(companyId, { supplierId, aliasId }, withdrawn, at);
		const word = `“${alias.phrase.trim()}”`;
		const records = [
			{
				record: 'Supplier',
				name: supplier.name,
				field: `Their word ${word}`,
				before: withdrawn ? 'remembered' : 'forgotten',
				after: withdrawn ? 'forgotten' : 'remembered'
			}
		];
		const title = `${withdrawn ? 'Forget' : 'Remember'} what ${supplier.name} calls ${word}`;
		await writeCompanyHistory(inside, services, actor, { title, records }, at);
		return done({ id: aliasId });
	});
}
