import { expect, it } from 'vitest';
import { fileName } from './download.ts';

// The forms are those of RFC 6266, section 5.
it('reads the name of a file from Content-Disposition', () => {
	expect(fileName('attachment; filename="EURO rates"')).toBe('EURO rates');
	expect(fileName(`attachment; filename="EURO rates"; filename*=utf-8''%e2%82%ac%20rates`)).toBe('€ rates');
	expect(fileName('attachment')).toBeNull();
	expect(fileName(`attachment; filename*=UTF-8''%E2%82`)).toBeNull();
});
