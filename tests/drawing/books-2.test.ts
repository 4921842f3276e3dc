import { describe } from 'vitest';
import { hundredBooks } from './books.ts';

describe('a hundred books of generated builds, seeds 101 to 200', () => hundredBooks(101));
