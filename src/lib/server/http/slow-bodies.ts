/** Ends requests whose body comes so slowly that they only hold a place. */
import type { Server } from 'node:http';

export interface Pace {
	/** ms between two looks. */
	readonly every: number;
	/** Bytes that have to come between two looks, or the rest of the body. */
	readonly leastBytes: number;
}

/** 1 kB a second, looked at every 20 s: less than the slowest line that a person would wait for. */
const usualPace: Pace = { every: 20_000, leastBytes: 20 * 1024 };

/** A look this much later than it was meant, in parts of its time, means that this process was busy and did not read. */
const late = 0.25;

export function endSlowBodies(server: Server, { every, leastBytes }: Pace = usualPace): void {
	server.on('request', (request, response) => {
		const { socket } = request;
		let seen = socket.bytesRead;
		let at = performance.now();
		let lay = false;
		const look = setInterval(() => {
			const [bytes, time] = [socket.bytesRead, performance.now()];
			const wasBusy = time - at > every * (1 + late);
			// What lies here unread is waiting for us, not for the one who sends; so does what we only now began to read.
			const lies = request.readableLength > 0;
			const waitsForUs = lies || lay;
			if (request.complete || request.destroyed) clearInterval(look);
			else if (!wasBusy && !waitsForUs && bytes - seen < leastBytes) {
				clearInterval(look);
				if (!response.headersSent) socket.write('HTTP/1.1 408 Request Timeout\r\nConnection: close\r\n\r\n');
				socket.destroySoon();
			}
			seen = bytes;
			at = time;
			lay = lies;
		}, every);
		look.unref();
		response.once('close', () => {
			clearInterval(look);
		});
	});
}
