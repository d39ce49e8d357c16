// The script of a Node.js worker: all of it.
import { parentPort } from 'node:worker_threads';
import { serveAnnotate } from '@handline/core';

serveAnnotate(parentPort);
