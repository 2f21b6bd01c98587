import { createServer } from "node:net";

/**
 * Takes a port until it is let go: a port that is taken is told before anything is filled, and two demos cannot fill one
 * database at once. @throws the system's error, EADDRINUSE where another holds it
 */
export function holdPort(port: number, host: string): Promise<() => Promise<void>> {
  const holder = createServer((socket) => socket.destroy());
  return new Promise((resolve, reject) => {
    holder.once("error", reject);
    holder.listen(port, host, () => resolve(() => new Promise((done) => holder.close(() => done()))));
  });
}
