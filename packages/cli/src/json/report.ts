/** The result of `check` for programs. Its schema is in `schema.ts`; a change of shape raises the version. */
import type { Basis, Fact, Finding, Measure, Need, Step } from '@loomwright/engine';
import type { ReportInput } from '../print/report.ts';
import { bare, jsonText, quantity, type Json } from './write.ts';

export const REPORT_FORMAT = 'loomwright-report';
export const REPORT_VERSION = 1;

/** The whole result as JSON text. */
export function reportJson({ file, build, judged, facts }: ReportInput): string {
  return jsonText({
    format: REPORT_FORMAT,
    version: REPORT_VERSION,
    build: {
      file,
      title: build.title,
      revision: build.revision ?? null,
      practice: build.practice ?? null,
      systems: { ...build.systems },
    },
    firstLine: judged.firstLine,
    exitCode: judged.exitCode,
    tally: tallyJson(judged.tally),
    conditions: { count: judged.conditions.length, ids: judged.conditions },
    auto: autoJson(judged.auto),
    findings: judged.findings.map(findingJson),
    facts: facts.map(factJson),
    assumed: judged.assumed.map(basisJson),
  });
}

function autoJson(auto: ReportInput['judged']['auto']): Json {
  if (auto === null) return null;
  const { size, wires, governedBy, onceConfirmed, serves } = auto;
  return {
    size: size.text,
    area: quantity(size.areaMm2, 'mm2'),
    wires: [...wires],
    governedBy,
    onceConfirmed: onceConfirmed?.text ?? null,
    serves,
  };
}

function tallyJson(tally: ReportInput['judged']['tally']): Json {
  const { danger, fault, open, advice, met, aside, toGet } = tally;
  return { danger, fault, open, advice, met, aside, toGet: { ...toGet } };
}

function findingJson(finding: Finding): Json {
  const { value, band } = finding;
  return {
    id: finding.id,
    check: finding.check,
    title: finding.title,
    family: finding.family,
    dangerFamily: finding.dangerFamily,
    verdict: finding.verdict,
    open: finding.open,
    ifNot: finding.ifNot,
    says: finding.says,
    value: measureJson(value),
    limit: measureJson(finding.limit),
    margin: bare(finding.margin),
    band: { nominal: bare(band[0]), slack: bare(band[1]), stiff: bare(band[2]), unit: value.unit },
    worst: finding.worst,
    others: finding.others,
    working: finding.working.map(stepJson),
    needs: finding.needs.map(needJson),
    restsOn: finding.restsOn.map(basisJson),
    statements: finding.statements.map(({ id, text, source, prov }) => ({ id, text, source, prov })),
    about: [...finding.about],
    aside: asideJson(finding),
  };
}

function asideJson({ aside }: Finding): Json {
  return aside === null ? null : { reason: aside.reason, by: aside.by ?? null, date: aside.date ?? null };
}

function measureJson(measure: Measure): Json {
  return quantity(measure.value, measure.unit, measure.words);
}

function stepJson(step: Step): Json {
  const silent = step.value === null && step.unit === '';
  return {
    what: step.what,
    how: step.how,
    result: silent ? null : quantity(step.value, step.unit),
    source: step.source ?? null,
    about: [...(step.about ?? [])],
  };
}

function needJson(need: Need): Json {
  return { why: need.why, ...(basisJson(need.basis) as Record<string, Json>) };
}

/** A value with its origin and the way to get a better one. */
export function basisJson(basis: Basis): Json {
  const { sourced } = basis;
  return {
    path: basis.path,
    label: basis.label,
    quantity: quantity(sourced.value, sourced.unit),
    band: sourced.band === undefined ? null : [bare(sourced.band[0]), bare(sourced.band[1])],
    provenance: sourced.prov,
    source: sourced.source,
    assumed: basis.assumed,
    how: basis.how,
    effort: basis.effort,
  };
}

function factJson(fact: Fact): Json {
  return {
    score: bare(fact.score),
    closes: [...fact.closes],
    how: fact.how,
    value: basisJson(fact.basis),
  };
}
