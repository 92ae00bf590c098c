import { parentPort, workerData } from 'node:worker_threads';
import { faultsOf } from '../records/file-check.ts';

// A full check of ten million readings takes seconds: in a thread of its own it delays nobody.
parentPort?.postMessage(faultsOf(workerData as string));
