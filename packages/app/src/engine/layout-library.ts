/** The layout library in a worker of its own, started when a drawing is first wanted. */
import type { Elk, ElkGraph } from '@loomwright/engine';

interface Library {
  layout(graph: ElkGraph): Promise<ElkGraph>;
}

/** How its worker is made; the pocket file sets another way. */
let makeWorker: () => Promise<Worker> = async () => {
  const { default: url } = await import('elkjs/lib/elk-worker.min.js?url');
  return new Worker(url, { name: 'layout' });
};

/** For a page that brings the library along. */
export function setLayoutWorkerMaker(make: () => Promise<Worker>): void {
  makeWorker = make;
  started = null;
}

let started: Promise<Library> | null = null;

function library(): Promise<Library> {
  started ??= start();
  return started;
}

async function start(): Promise<Library> {
  const [{ default: ELK }, worker] = await Promise.all([import('elkjs/lib/elk-api.js'), makeWorker()]);
  return new ELK({ workerFactory: () => worker }) as unknown as Library;
}

export const elk: Elk = async (graph) => await (await library()).layout(graph);

/** The first run costs most: a small graph is laid out before anyone waits for one. */
export async function warmElk(): Promise<void> {
  await elk({
    id: 'root',
    layoutOptions: { 'elk.algorithm': 'layered' },
    children: ['a', 'b'].map((id) => ({ id, width: 20, height: 20 })),
    edges: [{ id: 'e', sources: ['a'], targets: ['b'] }],
  });
}
