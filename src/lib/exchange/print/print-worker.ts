/** Prints in a worker thread of its own, so that the server answers others meanwhile. */
import { parentPort, workerData } from 'node:worker_threads';
import { makePrint, type PrintTask } from './make-print.ts';

const print = await makePrint(workerData as PrintTask);
parentPort?.postMessage(print, print.ok ? [print.content.buffer as ArrayBuffer] : []);
