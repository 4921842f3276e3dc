/** Turns everything that goes wrong into a problem detail in plain words. Stack traces go to the log only. */
import type { FastifyError, FastifyInstance, FastifyReply } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import { faultOf } from '../faults.ts';
import { Problem, problemBody, type ProblemWords } from '../problem.ts';
import { HEADERS } from './headers.ts';

/** Told of what no one expected, for the log. */
export type Log = (error: unknown) => void;

export function answerProblems(app: FastifyInstance, log: Log): void {
  app.setErrorHandler(async (error, _request, reply) => {
    const words = wordsOf(error);
    if (words.status >= 500) log(error);
    return await sendProblem(reply, words);
  });
}

export async function sendProblem(reply: FastifyReply, words: ProblemWords): Promise<FastifyReply> {
  return await reply
    .code(words.status)
    .headers({ ...HEADERS, 'content-type': 'application/problem+json; charset=utf-8' })
    .send(JSON.stringify(problemBody(words)));
}

/** The words for whatever was thrown. */
export function wordsOf(error: unknown): ProblemWords {
  const known = faultOf(error);
  if (known !== null) return known.words;
  if (hasZodFastifySchemaValidationErrors(error)) return invalid(error);
  const { statusCode, code = '' } = error as Partial<FastifyError>;
  const words =
    BY_CODE[code] ?? (statusCode !== undefined && statusCode < 500 ? bad(statusCode, error) : null);
  return words ?? FAILED;
}

function invalid(
  error: FastifyError & { validation: readonly { instancePath: string; message?: string | undefined }[] },
): ProblemWords {
  const errors = error.validation.slice(0, 20).map(({ instancePath, message }) => ({
    where: instancePath.split('/').filter(Boolean).join('.') || (error.validationContext ?? 'request'),
    message: message ?? 'is not as it should be',
  }));
  return {
    code: 'bad-request',
    status: 400,
    title: 'The request is not as it should be.',
    detail: `In the ${error.validationContext ?? 'request'}: ${errors.map(({ where, message }) => `${where}: ${message}`).join('; ')}.`,
    todo: 'Put this right and send it again. Nothing was changed.',
    members: { errors },
  };
}

const bad = (status: number, error: unknown): ProblemWords => ({
  code: 'bad-request',
  status,
  title: 'The request is not as it should be.',
  detail:
    error instanceof SyntaxError ? `The body is no JSON: ${error.message}` : 'The server could not read it.',
  todo: 'Put this right and send it again. Nothing was changed.',
});

const FAILED: ProblemWords = {
  code: 'failed',
  status: 500,
  title: 'The program failed.',
  detail: 'This is a fault of the program, not of what you did. Nothing was half saved.',
  todo: 'Try once more. Keep a copy of unsaved work, and tell those who maintain the program what you did.',
};

/** By the framework's error codes. */
const BY_CODE: Readonly<Record<string, ProblemWords>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: {
    code: 'too-large',
    status: 413,
    title: 'Refused. It is too large.',
    detail: 'The body of the request has more bytes than are taken here. Nothing was changed.',
    todo: 'Send less; a build has at most 1 MiB, a photo 12 MiB.',
  },
  FST_ERR_CTP_INVALID_MEDIA_TYPE: {
    code: 'wrong-type',
    status: 415,
    title: 'Refused. Wrong content type.',
    detail: 'This address does not take a body of that type. Nothing was changed.',
    todo: 'Send JSON as application/json, photos as image/jpeg, image/png or image/webp, builds as application/yaml, archives as application/x-tar.',
  },
  FST_ERR_BAD_URL: {
    code: 'bad-request',
    status: 400,
    title: 'The address cannot be read.',
    detail: 'It holds a broken percent sign sequence.',
    todo: 'Write it anew.',
  },
  FST_ERR_MAX_PARAM_LENGTH: {
    code: 'bad-request',
    status: 414,
    title: 'The address is too long.',
    detail: 'No id is that long.',
    todo: 'Write it anew.',
  },
};

export const tooDeep = (): Problem =>
  new Problem({
    code: 'too-deep',
    status: 400,
    title: 'Refused. It is nested too deeply.',
    detail: 'The JSON has more than 40 levels. Nothing was changed.',
    todo: 'Send it flatter.',
  });
