import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import { digestOf } from '../digest.ts';
/** What the invented book that comes with the program had for format 2 when this was written. */
import demo from './0002-engineering.json' with { type: 'json' };

/** The tables as they are at this step. */
interface Tables {
	book: { company_id: string; digest: string; kind: string; content: string; stored_at: string };
	job: { company_id: string; technical_digest: string; price_digest: string };
}

type Fields = Readonly<Record<string, unknown>>;

interface Row extends Fields {
	readonly key: string;
}

/** An anchor of format 1: one length, and nothing that a load could be checked by. */
interface Anchor extends Fields {
	readonly substrate: string;
	readonly diameter: string;
	readonly length: string;
	readonly reportNumber: string;
}

interface TechnicalBook extends Fields {
	readonly curtains: readonly Row[];
	readonly guides: readonly Row[];
	readonly barrels: readonly Row[];
	readonly brackets: readonly Row[];
	readonly drives: readonly Row[];
	readonly substrates: readonly Row[];
	readonly fixings: readonly (Row & { readonly anchors: readonly Anchor[] })[];
	readonly constants: Fields;
}

interface PriceBook extends Fields {
	readonly anchors: readonly { readonly key: string; readonly cost: string; readonly source: unknown }[];
}

const format1 = 'coilwright.technical-book.1';

const own = <T>(values: Readonly<Record<string, T>>, key: string): T | undefined =>
	Object.hasOwn(values, key) ? values[key] : undefined;

/*
 * What a row takes that the invented book has not. Where a figure can't be told from the row, it is one that asks for
 * more and not for less: the largest growth of the metals curtains are made of, the thinnest guide leg, the largest
 * motor, a stall torque of one and a half times the torque, no more holes in a bracket than it is said to have. Nothing
 * is cut by the shop.
 */
const face = {
	anchorGauge: '2.25',
	pryingArm: '2.5',
	heel: '1.5',
	legThickness: '0.125',
	legStrength: '30000'
};
const between = { ...face, anchorGauge: '2', pryingArm: '0' };
const neutral = {
	curtains: (): Fields => ({ barStockLength: '0', expansion: '0.000013' }),
	guides: ({ mounting }: Row): Fields => ({
		...(mounting === 'betweenJambs' ? between : face),
		curtainLeaves: 'wall',
		stockLength: '0'
	}),
	barrels: (): Fields => ({ stockLength: '0' }),
	brackets: ({ anchors }: Row): Fields => ({
		mostAnchors: anchors,
		holeGauge: '1.5',
		holeAcross: '3',
		holeEdge: '1.25'
	}),
	drives: ({ torque }: Row): Fields => ({
		stallTorque: String(Number((Number(torque) * 1.5).toFixed(6))),
		thermalMinutes: '5',
		horsepower: '1/2'
	}),
	// There is one row for each wall, in every book.
	substrates: (): Fields => demo.rows.substrates.concrete
};

/** Form of the wall's usual anchor, but held by nothing until a tested report says how much. */
const unreported = {
	kind: 'reported',
	breakoutFactor: '0',
	pullOut: '0',
	allowableTension: '0',
	allowableShear: '0',
	leastSpacing: '0',
	leastEdge: '0',
	torque: '0'
};

const lengthsWith = (lengths: readonly string[], length: string): string[] =>
	lengths.some((other) => Number(other) === Number(length))
		? [...lengths]
		: [...lengths, length].sort((a, b) => Number(a) - Number(b));

interface CompleteAnchor extends Fields {
	readonly diameter: string;
	readonly lengths: readonly string[];
	readonly reportNumber: string;
}

const demoAnchor = (fixing: string, substrate: string): CompleteAnchor | undefined =>
	own<CompleteAnchor>(demo.anchors, `${fixing}.${substrate}`);

/** The same anchor has the same diameter too. The figures of a report come with its number. */
function completeAnchor(fixing: string, { length, ...anchor }: Anchor): CompleteAnchor {
	const known = demoAnchor(fixing, anchor.substrate);
	if (known && Number(known.diameter) === Number(anchor.diameter)) {
		const reportNumber = anchor.reportNumber === '' ? known.reportNumber : anchor.reportNumber;
		return { ...known, ...anchor, reportNumber, lengths: lengthsWith(known.lengths, length) };
	}
	return { ...demoAnchor('standard', anchor.substrate), ...unreported, ...anchor, lengths: [length] };
}

function completeTechnical(book: TechnicalBook): Fields {
	const table = (name: keyof typeof neutral): Fields[] =>
		book[name].map((row) => ({
			...row,
			...(own<Fields>(demo.rows[name], row.key) ?? neutral[name](row))
		}));
	return {
		...book,
		...demo.tables,
		format: 'coilwright.technical-book.2',
		curtains: table('curtains'),
		guides: table('guides'),
		barrels: table('barrels'),
		brackets: table('brackets'),
		drives: table('drives'),
		substrates: table('substrates'),
		fixings: book.fixings.map((fixing) => ({
			...fixing,
			anchors: fixing.anchors.map((anchor) => completeAnchor(fixing.key, anchor))
		})),
		constants: { ...demo.constants, ...book.constants },
		standards: demo.standards
	};
}

/**
 * Prices that are new, and a price for each length of an anchor. The length that was priced keeps its price. The others
 * have the invented book's where that had the same price for the first, else the same price.
 */
function completePrices(prices: PriceBook, { fixings }: TechnicalBook): Fields {
	const anchors = fixings.flatMap((fixing) =>
		fixing.anchors.flatMap((anchor) => {
			const key = `${fixing.key}.${anchor.substrate}`;
			const priced = prices.anchors.find((row) => row.key === key);
			if (!priced) return [];
			const demoPrice = (length: string) => own(demo.anchorPrices, `${key}.${length}`);
			const asDemo = demoPrice(anchor.length)?.cost === priced.cost;
			return completeAnchor(fixing.key, anchor).lengths.map((length) => ({
				...priced,
				...(asDemo && length !== anchor.length ? demoPrice(length) : undefined),
				key: `${key}.${length}`
			}));
		})
	);
	return { ...demo.prices, ...prices, anchors };
}

/**
 * Technical books of format 1 get what the engineering asks for: each row what the invented book's row of its key has,
 * or else what is neutral; new tables, constants and editions from there too. Anchors are bought in several lengths, so
 * the price books that jobs pin with them get a price for each. The jobs pin the completed books. The old books stay:
 * a book is never changed.
 */
export const engineering: Migration = {
	async up(db: Kysely<Tables>): Promise<void> {
		const books = await db.selectFrom('book').selectAll().execute();
		const jobs = await db
			.selectFrom('job')
			.select(['company_id', 'technical_digest', 'price_digest'])
			.distinct()
			.execute();
		const stored = (company: string, digest: string) =>
			books.find((book) => book.company_id === company && book.digest === digest);
		const put = async (book: Tables['book'], content: Fields): Promise<string> => {
			const digest = digestOf(content);
			await db
				.insertInto('book')
				.values({ ...book, digest, content: JSON.stringify(content) })
				.onConflict((conflict) => conflict.columns(['company_id', 'digest']).doNothing())
				.execute();
			return digest;
		};
		for (const { company_id, technical_digest, price_digest } of jobs) {
			const [technical, price] = [stored(company_id, technical_digest), stored(company_id, price_digest)];
			if (!technical || !price) continue;
			const book = JSON.parse(technical.content) as TechnicalBook;
			if (book.format !== format1) continue;
			await db
				.updateTable('job')
				.set({
					technical_digest: await put(technical, completeTechnical(book)),
					price_digest: await put(price, completePrices(JSON.parse(price.content) as PriceBook, book))
				})
				.where('company_id', '=', company_id)
				.where('technical_digest', '=', technical_digest)
				.where('price_digest', '=', price_digest)
				.execute();
		}
	}
};
