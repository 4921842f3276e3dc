/**
 * One run of the layered layout: a model with frames becomes positions. The library is handed in, so that the engine stays pure;
 * it counts in whole numbers, so millimetres are scaled up and rounded before and down after.
 */
import type { Id } from '../../contracts/index.ts';
import { mayReorder, type Frame } from './frame.ts';
import { portId, type Edge, type Node, type SheetModel } from './model.ts';

/** What is used of the library's graph format (its JSON form). */
export interface ElkGraph {
  readonly id: string;
  readonly layoutOptions?: Readonly<Record<string, string>>;
  readonly children?: readonly ElkNode[];
  readonly edges?: readonly ElkEdge[];
}

export interface ElkNode {
  readonly id: string;
  readonly width?: number;
  readonly height?: number;
  readonly x?: number;
  readonly y?: number;
  readonly layoutOptions?: Readonly<Record<string, string>>;
  readonly ports?: readonly ElkPort[];
}

export interface ElkPort {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  readonly x?: number;
  readonly y?: number;
  readonly layoutOptions?: Readonly<Record<string, string>>;
}

interface ElkPoint {
  readonly x: number;
  readonly y: number;
}

export interface ElkEdge {
  readonly id: string;
  readonly sources: readonly string[];
  readonly targets: readonly string[];
  readonly layoutOptions?: Readonly<Record<string, string>>;
  readonly labels?: readonly {
    readonly text: string;
    readonly width: number;
    readonly height: number;
    readonly x?: number;
    readonly y?: number;
    readonly layoutOptions?: Readonly<Record<string, string>>;
  }[];
  readonly sections?: readonly {
    readonly startPoint: ElkPoint;
    readonly endPoint: ElkPoint;
    readonly bendPoints?: readonly ElkPoint[];
  }[];
}

/** The layout library: gives the graph back with positions. */
export type Elk = (graph: ElkGraph) => Promise<ElkGraph>;

/** Units of the library per millimetre. */
const SCALE = 20;
const units = (mm: number): number => Math.round(mm * SCALE);
const mm = (value: number | undefined): number => (value ?? 0) / SCALE;
const option = (value: number): string => String(units(value));

export interface RunOptions {
  /** Nodes and edges in this order: the library prefers it where nothing else decides. */
  readonly nodes: readonly Node[];
  readonly edges: readonly Edge[];
  readonly frames: ReadonlyMap<Id, Frame>;
  /** Ports of hubs may still change their order. */
  readonly free: boolean;
  /** Least distance of boxes in one column, mm. */
  readonly air: number;
  /** How hard crossings are looked for; 20 for paper, 7 while editing. */
  readonly thoroughness: number;
  /** Keep the order of nodes as given; firm: even where switching two of them would save a crossing. */
  readonly keepOrder: boolean | 'firm';
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface RawNode {
  readonly node: Node;
  readonly frame: Frame;
  readonly x: number;
  readonly y: number;
}

export interface RawWire {
  readonly edge: Edge;
  /** From the edge of the source's box to that of the target's. */
  readonly points: readonly Point[];
  /** Middle of the label along the wire. */
  readonly labelX: number;
}

export interface Raw {
  readonly nodes: readonly RawNode[];
  readonly wires: readonly RawWire[];
}

export async function run(elk: Elk, model: SheetModel, options: RunOptions): Promise<Raw> {
  const graph = await elk(graphOf(model, options));
  return rawOf(graph, options);
}

function rootOptions({ air, thoroughness, keepOrder }: RunOptions): Readonly<Record<string, string>> {
  return {
    'elk.algorithm': 'layered',
    'elk.direction': 'RIGHT',
    'elk.edgeRouting': 'ORTHOGONAL',
    'elk.randomSeed': '1',
    'elk.partitioning.activate': 'true',
    // One page, one map: pieces that no wire joins still share the columns of their places.
    'elk.separateConnectedComponents': 'false',
    'elk.layered.nodePlacement.strategy': 'BRANDES_KOEPF',
    'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
    'elk.layered.thoroughness': String(thoroughness),
    'elk.layered.crossingMinimization.greedySwitch.type': keepOrder === 'firm' ? 'OFF' : 'TWO_SIDED',
    ...(keepOrder !== false ? { 'elk.layered.crossingMinimization.forceNodeModelOrder': 'true' } : {}),
    'elk.layered.edgeLabels.centerLabelPlacementStrategy': 'SPACE_EFFICIENT_LAYER',
    'elk.layered.spacing.nodeNodeBetweenLayers': option(1.8),
    'elk.layered.spacing.edgeNodeBetweenLayers': option(1.8),
    'elk.layered.spacing.edgeEdgeBetweenLayers': option(2),
    'elk.spacing.nodeNode': option(air),
    'elk.spacing.edgeNode': option(2),
    'elk.spacing.edgeEdge': option(2.5),
    'elk.spacing.edgeLabel': '0',
    'elk.spacing.labelLabel': option(1),
    'elk.padding': '[top=0,left=0,bottom=0,right=0]',
  };
}

function graphOf(model: SheetModel, options: RunOptions): ElkGraph {
  return {
    id: 'page',
    layoutOptions: rootOptions(options),
    children: options.nodes.map((node) => elkNode(node, model, options)),
    edges: options.edges.map(elkEdge),
  };
}

const isHub = (node: Node): boolean => node.west.length > 1 || node.east.length > 1;

const mayMove = (node: Node): boolean => isHub(node) && mayReorder(node);

function elkNode(node: Node, model: SheetModel, { frames, free }: RunOptions): ElkNode {
  const frame = frames.get(node.id);
  const width = units(frame?.width ?? 0);
  const alignment = node.east.length === 0 ? 'LEFT' : node.west.length === 0 ? 'RIGHT' : 'CENTER';
  return {
    id: node.id,
    width,
    height: Math.ceil((frame?.height ?? 0) * SCALE),
    layoutOptions: {
      'elk.partitioning.partition': String(model.places.indexOf(node.place)),
      'elk.portConstraints': free && mayMove(node) ? 'FIXED_SIDE' : 'FIXED_POS',
      'elk.alignment': alignment,
    },
    ports: [...node.west, ...node.east].map((port) => ({
      id: portId(port),
      width: 0,
      height: 0,
      x: port.side === 'W' ? 0 : width,
      y: units(frame?.ports.get(portId(port)) ?? 0),
      layoutOptions: { 'elk.port.side': port.side === 'W' ? 'WEST' : 'EAST' },
    })),
  };
}

/** Thick conductors are kept straighter and shorter. */
const THICK_MM2 = 10;

function elkEdge(edge: Edge): ElkEdge {
  const { label, wire } = edge;
  const thick = (wire.areaMm2 ?? 0) >= THICK_MM2;
  return {
    id: wire.id,
    sources: [portId(edge.source.port)],
    targets: [portId(edge.target.port)],
    layoutOptions: {
      // The default of 1 pushes an inline label off its wire.
      'elk.edge.thickness': '0',
      'elk.layered.priority.straightness': thick ? '10' : '1',
      'elk.layered.priority.shortness': thick ? '3' : '1',
    },
    labels: [
      {
        text: wire.number,
        width: units(label.width),
        height: 2 * units(Math.max(label.up, label.down)),
        layoutOptions: { 'elk.edgeLabels.inline': 'true', 'elk.edgeLabels.placement': 'CENTER' },
      },
    ],
  };
}

function rawOf(graph: ElkGraph, { nodes, edges, frames }: RunOptions): Raw {
  const placed = new Map((graph.children ?? []).map((child) => [child.id, child]));
  const routed = new Map((graph.edges ?? []).map((edge) => [edge.id, edge]));
  return {
    nodes: nodes.flatMap((node) => {
      const frame = frames.get(node.id);
      const at = placed.get(node.id);
      return frame === undefined ? [] : [{ node, frame: moved(frame, node, at), x: mm(at?.x), y: mm(at?.y) }];
    }),
    wires: edges.map((edge) => {
      const found = routed.get(edge.wire.id);
      const section = found?.sections?.[0];
      const label = found?.labels?.[0];
      const points =
        section === undefined ? [] : [section.startPoint, ...(section.bendPoints ?? []), section.endPoint];
      return {
        edge,
        points: points.map(({ x, y }) => ({ x: mm(x), y: mm(y) })),
        labelX: mm(label?.x) + mm(label?.width) / 2,
      };
    }),
  };
}

/** Ports where the library put them. */
function moved(frame: Frame, node: Node, at: ElkNode | undefined): Frame {
  const ports = new Map((at?.ports ?? []).map((port) => [port.id, mm(port.y)]));
  const known = [...node.west, ...node.east].map((port) => portId(port));
  return { ...frame, ports: new Map(known.map((id) => [id, ports.get(id) ?? frame.ports.get(id) ?? 0])) };
}
