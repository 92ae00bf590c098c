import { say } from '../../wording/say.ts';
import { Problem, type ProblemError, Unreachable } from '../data/client.ts';

/** Sends a file as it is, telling how much of it has gone. Throws Problem or Unreachable. */
export function sendFile(id: string, file: File, signal: AbortSignal, onShare: (share: number) => void): Promise<void> {
  return new Promise((resolve, reject) => {
    // fetch cannot yet say how much of a body has been sent.
    const request = new XMLHttpRequest();
    request.open('POST', `/api/v1/imports?id=${id}`);
    request.setRequestHeader('content-type', 'text/csv');
    request.upload.onprogress = (event) => {
      if (event.lengthComputable) onShare(event.loaded / event.total);
    };
    request.onload = () => (request.status < 300 ? resolve() : reject(problemOf(request)));
    request.onerror = () => reject(new Unreachable());
    request.onabort = () => reject(new Unreachable());
    signal.addEventListener('abort', () => request.abort());
    request.send(file);
  });
}

function problemOf(request: XMLHttpRequest): Error {
  try {
    const told = JSON.parse(request.responseText) as { title?: string; detail?: string; errors?: ProblemError[] };
    return new Problem(request.status, told.title ?? say('web.error.refused'), told.detail ?? '', told.errors ?? []);
  } catch {
    return new Problem(request.status, say('web.error.refused'), '', []);
  }
}
