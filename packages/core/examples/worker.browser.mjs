// The script of a browser's worker, to be bundled: all of it.
import { serveAnnotate } from '@handline/core';

serveAnnotate(self);
