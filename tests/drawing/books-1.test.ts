import { describe } from 'vitest';
import { hundredBooks } from './books.ts';

describe('a hundred books of generated builds, seeds 1 to 100', () => hundredBooks(1));
