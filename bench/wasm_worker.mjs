// The npm package minizinc carries its solvers as WebAssembly for browsers only; under Node it looks for a
// program of that name. This gives it what it wants of a browser: a Worker, on threads of Node.
import {Worker as Thread, isMainThread, parentPort, workerData} from 'node:worker_threads';
import {readFileSync} from 'node:fs';
import {fileURLToPath} from 'node:url';
import vm from 'node:vm';

/** Set as globalThis.Worker before the package is loaded. `script` is its worker's file. */
export function workerOf(script) {
  return class {
    constructor() {
      this.thread = new Thread(new URL(import.meta.url), {workerData: script, stderr: false});
      this.listeners = new Set();
      this.thread.on('message', (data) => {
        this.onmessage?.({data});
        for (const it of [...this.listeners]) it({data});
      });
      this.thread.on('error', (error) => { console.error(error); });
    }
    addEventListener(_, listener, options) {
      const call = (event) => {
        if (options?.once) this.listeners.delete(call);
        listener(event);
      };
      this.listeners.add(call);
    }
    postMessage(message) { this.thread.postMessage(message); }
    terminate() { this.thread.terminate(); }
  };
}

if (!isMainThread) {
  const read = (url) => readFileSync(String(url).startsWith('file:') ? fileURLToPath(url) : String(url));
  globalThis.self = globalThis;
  globalThis.WorkerGlobalScope = Object;
  globalThis.location = {href: 'file://' + workerData, pathname: workerData};
  globalThis.postMessage = (message) => parentPort.postMessage(message);
  globalThis.addEventListener = (_, listener) => { parentPort.on('message', (data) => listener({data})); };
  globalThis.fetch = async (url) => new Response(read(String(url).split('?')[0]),
    {status: 200, headers: {'Content-Type': String(url).includes('.wasm') ? 'application/wasm' : 'text/plain'}});
  globalThis.XMLHttpRequest = class {
    open(_, url) { this.url = String(url).split('?')[0]; }
    send() {
      const bytes = read(this.url);
      this.response = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
      this.status = 200;
      this.onload?.();
    }
  };
  parentPort.on('message', (data) => { globalThis.onmessage?.({data}); });
  const script = readFileSync(workerData, 'utf8');
  globalThis.process = undefined;  // by which it would take itself for a program of Node
  vm.runInThisContext(script, {filename: workerData});
}
