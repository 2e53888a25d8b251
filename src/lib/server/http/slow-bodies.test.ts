/** Over real sockets: who sends drop by drop is cut off, who sends at a fair pace is answered. */
import { once } from 'node:events';
import {
	createServer,
	type IncomingMessage,
	type RequestListener,
	type Server,
	type ServerResponse
} from 'node:http';
import { connect, type AddressInfo, type Socket } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';
import { expect, it, onTestFinished } from 'vitest';
import { endSlowBodies } from './slow-bodies.ts';

const every = 600;

/** Answers with the size of the body. */
function read(request: IncomingMessage, response: ServerResponse): void {
	let size = 0;
	request.on('data', (chunk: Buffer) => (size += chunk.length));
	request.on('end', () => response.end(`${size} bytes`));
	request.on('error', () => response.destroy());
}

async function listening(answer: RequestListener = read): Promise<{ server: Server; port: number }> {
	const server = createServer(answer);
	endSlowBodies(server, { every, leastBytes: 1000 });
	server.listen(0, '127.0.0.1');
	await once(server, 'listening');
	onTestFinished(() => {
		server.closeAllConnections();
		server.close();
	});
	return { server, port: (server.address() as AddressInfo).port };
}

async function sending(port: number, length: number): Promise<{ socket: Socket; answer: Promise<string> }> {
	const socket = connect(port, '127.0.0.1');
	await once(socket, 'connect');
	let text = '';
	socket.on('data', (chunk) => (text += String(chunk)));
	socket.on('error', () => undefined);
	const answer = once(socket, 'close').then(() => text);
	socket.write(
		`POST / HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\ncontent-length: ${length}\r\n\r\n`
	);
	return { socket, answer };
}

it('a body that comes a byte at a time is ended with 408', async () => {
	const { port } = await listening();
	const { socket, answer } = await sending(port, 10_000);
	const drops = setInterval(() => {
		if (socket.writable) socket.write('x');
	}, 50);
	onTestFinished(() => {
		clearInterval(drops);
	});
	expect(await answer).toMatch(/^HTTP\/1\.1 408 /u);
});

it('a small body that never ends is ended too', async () => {
	const { port } = await listening();
	const { socket, answer } = await sending(port, 20);
	socket.write('only half');
	expect(await answer).toMatch(/^HTTP\/1\.1 408 /u);
});

it('a body that takes long, at a fair pace, is answered', async () => {
	const { port } = await listening();
	const { socket, answer } = await sending(port, 40_000);
	for (let i = 0; i < 20; i++) {
		socket.write('x'.repeat(2000));
		await wait(every / 6);
	}
	expect(await answer).toMatch(/40000 bytes$/u);
});

it('a body that begins well and then comes a byte at a time is ended with 408', async () => {
	const { server, port } = await listening();
	const begun = once(server, 'request');
	const { socket, answer } = await sending(port, 5200);
	await begun;
	socket.write('x'.repeat(5000));
	const drops = setInterval(() => {
		if (socket.writable) socket.write('x');
	}, 50);
	onTestFinished(() => {
		clearInterval(drops);
	});
	expect(await answer).toMatch(/^HTTP\/1\.1 408 /u);
});

it('a body that lies here unread is not ended: it waits for us', async () => {
	const { port } = await listening((request, response) => {
		setTimeout(() => {
			read(request, response);
		}, every * 4);
	});
	const { socket, answer } = await sending(port, 10_000_000);
	socket.write('x'.repeat(10_000_000));
	expect(await answer).toMatch(/10000000 bytes$/u);
});

it('a body that begins to be read just before a look is not ended: nothing more could come yet', async () => {
	const { port } = await listening((request, response) => {
		// As long as a look, and begun before it: each runs right before one.
		const thirdLook = (looks: number): unknown =>
			setTimeout(() => (looks === 1 ? read(request, response) : thirdLook(looks - 1)), every);
		thirdLook(3);
	});
	const { socket, answer } = await sending(port, 10_000_000);
	socket.write('x'.repeat(10_000_000));
	expect(await answer).toMatch(/10000000 bytes$/u);
});

it('a body that comes while this process is busy with something else is answered', async () => {
	const { server, port } = await listening();
	server.on('request', () => {
		setImmediate(() => Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, every * 2));
	});
	const begun = once(server, 'request');
	const { socket, answer } = await sending(port, 10);
	await begun;
	await wait(every / 10);
	socket.write('x'.repeat(10));
	expect(await answer).toMatch(/10 bytes$/u);
});

it('a question whose answer takes long is answered', async () => {
	const { port } = await listening((_request, response) => {
		setTimeout(() => response.end('at last'), every * 4);
	});
	const { answer } = await sending(port, 0);
	expect(await answer).toMatch(/at last$/u);
});
