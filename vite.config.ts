import { availableParallelism } from 'node:os';
import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';

export default defineConfig({
	plugins: [sveltekit()],
	build: { target: 'es2022' },
	// It names svelte as a peer, and would be bundled as a component library otherwise.
	ssr: { external: ['better-auth'] },
	test: {
		environment: 'node',
		include: ['src/**/*.test.ts', 'tests/**/*.test.ts'],
		globalSetup: 'tests/storage/shared-cluster.ts',
		// Two at a time also on two cores: most tests wait for a database or a browser.
		maxWorkers: Math.max(2, availableParallelism() - 1),
		// What a page shows after an answer of the server takes its time on a busy machine.
		expect: { poll: { timeout: 20_000 } },
		testTimeout: 180_000,
		hookTimeout: 180_000
	}
});
