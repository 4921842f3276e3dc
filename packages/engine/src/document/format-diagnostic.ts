/** Diagnostics as one line of text. */
import type { Diagnostic } from './types.ts';

/** `job.yaml:31:18: found "25", a size without a unit; write 25 mm2 or 4 AWG`; warnings and notes say so. */
export function formatDiagnostic(diagnostic: Diagnostic, file: string): string {
  const kind = diagnostic.severity === 'error' ? '' : diagnostic.severity === 'info' ? 'note: ' : 'warning: ';
  return `${file}:${diagnostic.line}:${diagnostic.column}: ${kind}${diagnostic.message}`;
}
