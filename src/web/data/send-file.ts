import { say } from '../../wording/say.ts';
import { Problem, type ProblemError, Unreachable } from './client.ts';

/**
 * Sends a file as it is to a path after `/api/v1/`, telling how much of it has gone (0 to 1), and returns the server's answer. Throws
 * Problem or Unreachable.
 */
export function sendFile<T>(
  path: string,
  type: 'text/csv' | 'application/zip',
  file: File,
  signal: AbortSignal,
  onShare: (share: number) => void,
): Promise<T> {
  return new Promise((resolve, reject) => {
    // fetch cannot yet say how much of a body has been sent.
    const request = new XMLHttpRequest();
    request.open('POST', `/api/v1/${path}`);
    request.setRequestHeader('content-type', type);
    request.upload.onprogress = (event) => {
      if (event.lengthComputable) onShare(event.loaded / event.total);
    };
    request.onload = () =>
      request.status < 300 ? resolve(JSON.parse(request.responseText) as T) : reject(problemOf(request));
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
