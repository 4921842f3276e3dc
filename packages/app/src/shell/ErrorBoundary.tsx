/** A screen that failed: said in words, with the text of the build kept and one way on. Never a stack trace. */
import { Component, type ReactNode } from 'react';
import { buildStore } from '../build-store.ts';
import { VerdictMark } from '../marks/VerdictMark.tsx';
import { saveFile } from '../store/files.ts';
import { words } from '../words.ts';

interface Props {
  readonly children: ReactNode;
}

export class ErrorBoundary extends Component<Props, { readonly failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError(): { readonly failed: boolean } {
    return { failed: true };
  }

  override render(): ReactNode {
    if (!this.state.failed) return this.props.children;
    const { text } = buildStore.get();
    return (
      <div role="alert">
        <h1 className="lead" style={{ display: 'flex', gap: 12 }}>
          <VerdictMark verdict="fault" />
          {words.failed.title}
        </h1>
        <p>{words.failed.says}</p>
        <p style={{ display: 'flex', gap: 8, marginTop: 16 }}>
          {text !== null && (
            <button type="button" className="button solid" onClick={() => saveFile('build.yaml', text)}>
              {words.failed.copy}
            </button>
          )}
          <button type="button" className="button" onClick={() => this.setState({ failed: false })}>
            {words.failed.again}
          </button>
        </p>
      </div>
    );
  }
}
