/**
 * Serves the built program: `npm run --silent serve`. PORT and HOST choose where (127.0.0.1:4173 when nothing is said), COILWRIGHT_DATA
 * the folder of the database; what else the environment says is read in `identity/serving.ts`.
 */
import { channel } from 'node:diagnostics_channel';
import { existsSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { endSlowBodies } from '../lib/server/http/slow-bodies.ts';
import { servingOf, type Serving } from '../lib/server/identity/serving.ts';

type Handler = (request: IncomingMessage, response: ServerResponse, next: () => void) => void;

const root = join(import.meta.dirname, '..', '..');
/** Ports tried after the default one when it is taken. */
const furtherPorts = 10;
/** Tells the handler the protocol; whatever arrives under this name is thrown away. */
const protocolHeader = 'x-coilwright-protocol';
/** Bodies are read to this size so that the program can say in words that its own limits (20 MB a file, 100 MB a building model) are passed. */
const readLimit = '512M';
const stopWithin = 5_000;

function fail(message: string): never {
	console.error(message);
	process.exit(1);
}

/** The program says why it does not start; that it says so on purpose is told by the name, since it comes built. */
function failOnPurpose(error: unknown): never {
	if (error instanceof Error && error.name === 'RefusedStart') fail(error.message);
	throw error;
}

function readServing(): Serving {
	try {
		return servingOf(process.env, root);
	} catch (error) {
		return failOnPurpose(error);
	}
}

async function loadHandler(origin: string | null): Promise<Handler> {
	const file = join(root, 'build', 'handler.js');
	if (!existsSync(file)) fail('The program is not built yet. Run npm start, which builds it.');
	process.chdir(root);
	// The handler reads these when it is loaded. What a shell may have set for other programs must not change them.
	for (const name of ['ORIGIN', 'HOST_HEADER', 'PORT_HEADER', 'ADDRESS_HEADER', 'XFF_DEPTH'])
		Reflect.deleteProperty(process.env, name);
	if (origin === null) process.env.PROTOCOL_HEADER = protocolHeader;
	else process.env.ORIGIN = origin;
	process.env.BODY_SIZE_LIMIT = readLimit;
	process.env.NODE_ENV ??= 'production';
	try {
		const loaded = (await import(pathToFileURL(file).href)) as { handler: Handler };
		return loaded.handler;
	} catch (error) {
		return failOnPurpose(error);
	}
}

/** Listens on the port, or on one of the next few when it was not asked for and is taken. */
async function listen(server: Server, host: string, port: number, asked: boolean): Promise<number> {
	for (let next = port; ; next++) {
		const problem = await new Promise<NodeJS.ErrnoException | null>((resolve) => {
			const failed = (error: NodeJS.ErrnoException): void => {
				server.off('listening', ready);
				resolve(error);
			};
			const ready = (): void => {
				server.off('error', failed);
				resolve(null);
			};
			server.once('error', failed);
			server.once('listening', ready);
			server.listen(next, host);
		});
		if (!problem) {
			const address = server.address();
			return typeof address === 'object' && address ? address.port : next;
		}
		if (problem.code !== 'EADDRINUSE') throw problem;
		if (asked || next - port >= furtherPorts)
			fail(`Port ${next} is taken. Name another one: PORT=5000 npm start`);
		console.log(`Port ${next} is taken; trying ${next + 1}.`);
	}
}

function stopCleanly(server: Server): void {
	let stopping = false;
	const stop = (): void => {
		if (stopping) return;
		stopping = true;
		channel('coilwright:stopping').publish(null);
		const late = setTimeout(() => server.closeAllConnections(), stopWithin);
		server.close(() => {
			clearTimeout(late);
			// Nothing keeps the process now: the program closes its database and it ends. Should something hang, it ends too.
			setTimeout(() => process.exit(), stopWithin).unref();
		});
		server.closeIdleConnections();
	};
	process.on('SIGTERM', stop);
	process.on('SIGINT', stop);
}

const { host, port, askedPort, origin } = readServing();
const handler = await loadHandler(origin);
const server = createServer(
	{
		requestTimeout: 180_000,
		headersTimeout: 20_000,
		connectionsCheckingInterval: 5_000,
		keepAliveTimeout: 10_000,
		maxHeaderSize: 16_384
	},
	(request, response) => {
		request.headers[protocolHeader] = 'http';
		// Assets are answered before the program sees the request.
		response.setHeader('x-content-type-options', 'nosniff');
		handler(request, response, () => {
			response.statusCode = 404;
			response.end();
		});
	}
);
endSlowBodies(server);
stopCleanly(server);
const listening = await listen(server, host, port, askedPort !== null);
const address = `http://${host.includes(':') ? `[${host}]` : host}:${listening}/`;
console.log(`Coilwright is ready: ${address}${origin === null ? '' : ` (people reach it at ${origin})`}`);
