import { describe, expect, it } from 'vitest';
import { browserWords } from './browser-words.ts';

describe('a browser in words', () => {
	// The headers as these browsers send them.
	it('is told by what it says of itself', () => {
		expect(
			browserWords('Mozilla/5.0 (Windows NT 10.0; Win64; x64; rv:133.0) Gecko/20100101 Firefox/133.0')
		).toBe('Firefox on Windows');
		expect(
			browserWords(
				'Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/131.0.0.0 Safari/537.36 Edg/131.0.0.0'
			)
		).toBe('Edge on Windows');
		expect(
			browserWords(
				'Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/131.0.0.0 Mobile Safari/537.36'
			)
		).toBe('Chrome on Android');
		expect(
			browserWords(
				'Mozilla/5.0 (iPhone; CPU iPhone OS 18_1 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.1 Mobile/15E148 Safari/604.1'
			)
		).toBe('Safari on iPhone');
		expect(
			browserWords(
				'Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.1 Safari/605.1.15'
			)
		).toBe('Safari on Mac');
	});

	it('is unknown where nothing is told', () => {
		expect(browserWords(null)).toBe('Unknown browser');
		expect(browserWords('')).toBe('Unknown browser');
		expect(browserWords('<script>')).toBe('Unknown browser');
	});
});
