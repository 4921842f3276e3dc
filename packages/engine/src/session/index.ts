export { openSession, type Judged, type Session, type SessionOptions } from './session.ts';
