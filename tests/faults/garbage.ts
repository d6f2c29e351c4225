/** What answers garbage, and a passage that stops without a word. */
import { once } from 'node:events';
import { connect, createServer, type Server, type Socket } from 'node:net';
import type { Undo } from '../bench/processes.js';

/** Rubbish by turns: bytes of no protocol, an answer of another one, nothing at all and the end. */
const RUBBISH = [
  Buffer.from('\u0000\u00ff\u0013rubbish\r\n\r\n'),
  Buffer.from('SSH-2.0-rubbish\r\n'),
  Buffer.from('HTTP/1.1 200 OK\r\nContent-Length: 7\r\n\r\nrubbish'),
  Buffer.alloc(0),
];

export interface Garbage {
  /** Connections that were answered so. */
  readonly answered: () => number;
  end(): Promise<void>;
}

/** Takes connections at a port, and answers what comes with rubbish. */
export async function garbageAt(undo: Undo, port: number): Promise<Garbage> {
  let count = 0;
  const { close } = await listening(port, (socket) => {
    socket.once('data', () => {
      socket.end(RUBBISH[count % RUBBISH.length] ?? '');
      count += 1;
    });
  });
  undo(close);
  return { answered: () => count, end: close };
}

export interface Passage {
  readonly port: number;
  /** Connections that were opened. */
  readonly opened: () => number;
  /** From now on nothing passes, in either direction, and nobody is told: no end, no reset. */
  cut(): void;
  /** What comes from now on passes. What was under way is lost, as its connections are. */
  heal(): void;
}

/** A passage to another port of this machine. */
export async function passageTo(undo: Undo, target: number): Promise<Passage> {
  let isCut = false;
  let opened = 0;
  const dead = new Set<Socket>();
  const { close, port } = await listening(0, (near) => {
    opened += 1;
    if (isCut) return void dead.add(near.pause());
    const far = connect(target, '127.0.0.1');
    for (const [from, to] of [
      [near, far],
      [far, near],
    ] as const) {
      from.on('data', (chunk) => {
        if (isCut) dead.add(from.pause());
        else to.write(chunk);
      });
      from.on('error', () => undefined);
      from.on('close', () => {
        if (!isCut) to.destroy();
      });
    }
    undo(() => far.destroy());
  });
  undo(close);
  return {
    port,
    opened: () => opened,
    cut: () => {
      isCut = true;
    },
    heal: () => {
      isCut = false;
      for (const socket of dead) socket.destroy();
      dead.clear();
    },
  };
}

async function listening(
  port: number,
  serve: (socket: Socket) => void,
): Promise<{ port: number; close: () => Promise<void> }> {
  const sockets = new Set<Socket>();
  const server: Server = createServer((socket) => {
    sockets.add(socket);
    socket.on('error', () => undefined);
    socket.once('close', () => sockets.delete(socket));
    serve(socket);
  });
  server.listen(port, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  return {
    port: typeof address === 'object' && address !== null ? address.port : port,
    close: async () => {
      if (!server.listening) return;
      const closed = once(server, 'close');
      server.close();
      for (const socket of sockets) socket.destroy();
      await closed;
    },
  };
}
